/** Where the figures of each machine come from. */
import { type CaseStation, num } from '../case-inputs.js';
import {
  atCyclePct,
  connectionLines,
  connectionMinutes,
  harnessMinutes,
  lostPerHour,
  type MinutesLine,
} from '../changeover-minutes.js';
import { incrementFor } from '../increment-result.js';
import type { Way } from '../plan-flows.js';
import type { StationResult } from '../result.js';
import { soldShare } from '../standing/standing-facts.js';
import { restedMoves } from '../station-result.js';
import {
  type AuditedCase,
  discountFormula,
  modelInput,
  plusPct,
  rowInput,
  signalInput,
} from './audit-inputs.js';
import { type Formula, formula, joined, named, sumOf } from './formula.js';
import { orderPriceEntry } from './order-price-entry.js';

export interface AuditedStation extends AuditedCase {
  readonly station: CaseStation;
  readonly result: StationResult;
  readonly breakEven: number | null;
}

/** Boxes and counts of all machines first: the figures of each machine name those of the others. */
export function countEntries({ cell, station, result, item, trail }: AuditedStation): void {
  const { demand, station: name } = station;
  const counted = (what: string, value: number) => signalInput(cell, station, what, value);
  const need = (what: string, value: number, rating: string) =>
    formula`roundup(${counted(what, value)} / ${item(rating)})`;
  const boxes =
    demand === null
      ? item('boxes_per_machine')
      : formula`max(${need('inputs', demand.inputs, 'box_inputs')}, ${need('outputs', demand.outputs, 'box_outputs')}, ${need('amperes', demand.loadA, 'box_amps')})`;
  trail.add(`${name}: boxes`, result.boxes, boxes);
  trail.add(
    `${name}: changeovers per year`,
    result.changeoversPerYear,
    formula`${rowInput(station, 'per_year', station.perYear)} x ${item('changeover_count_pct')} / 100`,
  );
}

export function minutesEntries({ cell, inputs, station, result, item, trail }: AuditedStation): void {
  const name = station.station;
  const sumOfLines = (lines: readonly MinutesLine[]): Formula =>
    sumOf(
      lines.map(({ items, counts }) => {
        const product = joined(items.map(item), ' x ');
        if (counts === undefined) return product;
        return counts === 'boxes'
          ? formula`${trail.figure(`${name}: boxes`)} x ${product}`
          : formula`${signalInput(cell, station, 'signals', station.signals)} x ${product}`;
      }),
    );
  trail.add(`${name}: minutes of moving the harness`, result.harnessMin, sumOfLines(result.harnessLines));
  trail.add(`${name}: minutes with a box`, result.boxMin, sumOfLines(result.boxLines));
  for (const connection of inputs.connections) {
    const lines = connectionLines(inputs, station, connection);
    const minutes = connectionMinutes(inputs, station, connection);
    trail.add(`${name}: minutes with ${connection}`, minutes, sumOfLines(lines));
  }
}

export function costEntries(at: AuditedStation): void {
  const { inputs, station, result, item, trail } = at;
  const name = station.station;
  const lost = trail.add(
    `${name}: contribution lost per hour of downtime`,
    lostPerHour(inputs, station),
    lostFormula(at),
  );
  const labour = formula`${item('labour_per_h')} x ${plusPct(item('labour_burden_pct'))} / 60 x ${rowInput(station, 'people', station.people)}`;
  trail.add(
    `${name}: cost of a minute`,
    result.labourPerMin + result.contributionPerMin,
    formula`${labour} + ${lost} / 60 x ${rowInput(station, 'internal_pct', 100 * station.internalShare)} / 100`,
  );
}

/** What an hour of the machine is worth: typed, by the floor or the steady cell, or nothing. */
function lostFormula({ cell, inputs, station, item, trail }: AuditedStation): Formula {
  const { source, lost } = station.standing;
  if (source === 'typed') return item('contribution_per_machine_h');
  if (source === 'nothing')
    return { text: '0', inputs: [...item('machine_constrained').inputs, ...item('order_book_full').inputs] };
  const by = source === 'floor' ? 'by the floor' : 'by the steady cell';
  const brings = lost.map((planned) => {
    const row = { ...planned, ...atCyclePct(planned, num(inputs, 'cycle_pct')) };
    const place = cell.parts.find((part) => part.part === row.part)?.at ?? null;
    const each = named({ item: `contribution of ${row.part}`, value: row.each, place });
    const share = `${row.part}: share of lost parts that would be sold, ${by}`;
    const week = (what: string, value: number) => modelInput(`${row.part} a week ${what}, ${by}`, value);
    const [free, moved] = [week('without moves of the harness', row.free), week('with all moves', row.moved)];
    const asked = named({ item: `${row.part} asked for a week`, value: row.asked ?? 0, place });
    const wanted = formula`${asked} x ${item('demand_pct')} / 100`;
    const spread = Math.abs(row.free - row.moved) > 1e-12 * Math.max(1, row.free);
    const pct = num(inputs, 'demand_pct') / 100;
    const value = row.allSold ? 1 : soldShare(row, pct);
    trail.add(
      share,
      value,
      row.allSold || row.asked === null || !spread
        ? formula`${value}`
        : formula`(min(${wanted}, ${free}) - min(${wanted}, ${moved})) / (${free} - ${moved})`,
    );
    const perH = modelInput(`${row.part} lost per hour of ${station.station}, ${by}`, row.perH);
    return formula`${perH} x ${each} x ${trail.figure(share)}`;
  });
  return formula`max(0, ${sumOf(brings)}) x ${item('contribution_pct')} / 100`;
}

export function savingEntries(at: AuditedStation): void {
  const { inputs, station, result, item, trail } = at;
  const name = station.station;
  const count = trail.figure(`${name}: changeovers per year`);
  const others = inputs.stations
    .filter((other) => other.station !== name)
    .map((other) => trail.figure(`${other.station}: changeovers per year`));
  const moves = trail.add(
    `${name}: moves of the harness per year`,
    result.movesPerYear,
    formula`min(${count}, ${sumOf([...others, item('harness_elsewhere_per_year')])})`,
  );
  const [move, box] = [
    trail.figure(`${name}: minutes of moving the harness`),
    trail.figure(`${name}: minutes with a box`),
  ];
  const here = formula`${moves} x ${move} - ${count} x ${box}`;
  const elsewhere = restedMoves(inputs, inputs.stations.indexOf(station)).flatMap((spared, k) =>
    spared > 0 ? [elsewhereEntry(at, inputs.stations[k]!, spared)] : [],
  );
  const costOf = (at: string) => trail.figure(`${at}: cost of a minute`);
  trail.add(
    `${name}: minutes saved per year`,
    result.savedMinPerYear,
    sumOf([here, ...elsewhere.map(({ minutes }) => minutes)]),
  );
  trail.add(
    `${name}: saving per year`,
    result.savingPerYear,
    sumOf([
      formula`(${here}) x ${costOf(name)}`,
      ...elsewhere.map(({ at, minutes }) => formula`${minutes} x ${costOf(at)}`),
    ]),
  );
}

/** Minutes saved at another machine, where the harness rests once it is no longer fetched to this one. */
function elsewhereEntry(
  { inputs, station, item, trail }: AuditedStation,
  other: CaseStation,
  spared: number,
): { at: string; minutes: Formula } {
  const count = (of: CaseStation) => trail.figure(`${of.station}: changeovers per year`);
  const rest = inputs.stations.filter((each) => each !== station && each !== other).map(count);
  const [all, alone] = [
    formula`min(${count(other)}, ${sumOf([count(station), ...rest, item('harness_elsewhere_per_year')])})`,
    formula`min(${count(other)}, ${sumOf([...rest, item('harness_elsewhere_per_year')])})`,
  ];
  const minutes = trail.add(
    `${other.station}: minutes saved per year by a box on ${station.station}`,
    spared * harnessMinutes(inputs, other),
    formula`(${all} - ${alone}) x ${trail.figure(`${other.station}: minutes of moving the harness`)}`,
  );
  return { at: other.station, minutes };
}

/** Cables, mounting and wiring at some share of the first machine's hours, programming and commissioning. */
export function fittingFormula(
  { cell, item, trail }: AuditedCase,
  station: CaseStation,
  practice: Formula,
): Formula {
  const boxes = trail.figure(`${station.station}: boxes`);
  const signals = signalInput(cell, station, 'signals', station.signals);
  const fitting = formula`(${boxes} x ${item('box_mount_h')} + ${signals} x ${item('box_wire_min_per_signal')} / 60) x ${practice}`;
  return formula`${boxes} x ${item('cable_set_price')} + (${fitting} + ${item('programming_h')} + ${item('commissioning_h')}) x ${item('install_per_h')}`;
}

/** The same for a named connection. */
export function connectedFormula(
  { cell, item }: AuditedCase,
  station: CaseStation,
  connection: string,
  practice: Formula,
): Formula {
  const own = (what: string) => item(`${connection}.${what}`);
  const signals = signalInput(cell, station, 'signals', station.signals);
  const fitting = formula`(${own('fit_h')} + ${signals} x ${own('fit_min_per_signal')} / 60) x ${practice}`;
  return formula`${own('price')} + (${fitting} + ${item('programming_h')} + ${item('commissioning_h')}) x ${item('install_per_h')}`;
}

export function worthEntries(at: AuditedStation): void {
  const { inputs, station, result, breakEven, item, trail } = at;
  const name = station.station;
  const one: Formula = { text: '1', inputs: [] };
  const order = orderPriceEntry(at, result.boxes);
  const capital = trail.add(
    `${name}: capital`,
    result.capital,
    formula`(${order} + ${fittingFormula(at, station, one)} + ${item('engineering_price')} + ${item('risk_assessment_price')}) x ${plusPct(item('contingency_pct'))}`,
  );
  const discount = discountFormula(at, 'before tax');
  const ways = inputs.stations.map((other): Way => (other === station ? 'own box' : 'harness'));
  const flows = incrementFor(inputs, ways, 'before tax').cashFlow;
  const years = flows.map((flow, year) =>
    named({ item: `a box on ${name} alone: difference of year ${year}`, value: flow, place: null }),
  );
  const difference: Formula = {
    text: `a box on ${name} alone: difference of year y`,
    inputs: years.flatMap((year) => year.inputs),
  };
  trail.add(
    `${name}: present value of a box on this machine alone`,
    result.npv,
    formula`sum(${difference} / ${plusPct(discount)} ^ y, y = 0 to ${item('horizon_years')})`,
  );
  trail.found(
    'search',
    `${name}: changeovers at which its box breaks even`,
    breakEven,
    'search: the least count over the horizon at which that present value is 0 or more',
    [capital, trail.figure(`${name}: saving per year`), discount, item('horizon_years')],
  );
}
