/** Inputs of an audited figure: a cost item, a row of a table, the signals of a machine, or another figure. */
import type { Cell } from '../../model/cell.js';
import { costItems } from '../../model/cost-items.js';
import { givenCost } from '../../model/cost-value.js';
import type { CaseInputs, CaseStation } from '../case-inputs.js';
import type { AuditInput } from '../result.js';

export type ItemReader = (...names: string[]) => AuditInput[];

/** Items with the value that counts (options and defaults included) and where it was given. */
export function itemReader(cell: Pick<Cell, 'costs'>, inputs: CaseInputs): ItemReader {
  return (...names) =>
    [...new Set(names)].map((name) => {
      const given = givenCost(cell.costs, name);
      const fallback = costItems.find((format) => format.name === name)?.default ?? 'not given';
      const value = inputs.numbers[name] ?? given?.value ?? fallback;
      return { item: given ? name : `${name} (default)`, value, place: given?.at ?? null };
    });
}

/** A figure of the audit itself, by the name of its entry. */
export function derived(result: string, value: number): AuditInput {
  return { item: result, value, place: null, from: result };
}

/** A column of the machine's row in changeovers.csv. */
export function rowInput(station: CaseStation, column: string, value: number): AuditInput {
  return { item: `${column} of ${station.station}`, value, place: station.at };
}

/** Something counted over the machine's rows in signals.csv; without such rows, signals_per_machine gives it. */
export function signalInput(
  cell: Pick<Cell, 'costs' | 'signals'>,
  station: CaseStation,
  what: string,
  value: number,
): AuditInput {
  const places = cell.signals.flatMap((s) => (s.station === station.station && s.at ? [s.at] : []));
  const item = `${what} of ${station.station}`;
  if (station.demand === null)
    return {
      item: `${item} (signals_per_machine)`,
      value,
      place: givenCost(cell.costs, 'signals_per_machine')?.at ?? null,
    };
  const first = places[0] ?? null;
  return first === null
    ? { item, value, place: null }
    : { item, value, place: first, lines: places.map((place) => place.line) };
}
