/** Where the figures of each machine come from. */
import type { Cell } from '../../model/cell.js';
import { type CaseInputs, type CaseStation, num } from '../case-inputs.js';
import { lostPerHour } from '../changeover-minutes.js';
import type { AuditEntry, AuditInput, StationResult } from '../result.js';
import type { StandingFacts } from '../standing/standing-facts.js';
import { derived, type ItemReader, rowInput, signalInput } from './audit-inputs.js';

export interface AuditedStation {
  readonly cell: Cell;
  readonly inputs: CaseInputs;
  readonly facts: StandingFacts | null;
  readonly station: CaseStation;
  readonly result: StationResult;
  readonly breakEven: number | null;
  readonly item: ItemReader;
}

export function stationEntries(at: AuditedStation): AuditEntry[] {
  return [minutesEntries, costEntries, savingEntries, boxEntries, worthEntries].flatMap((part) => part(at));
}

function minutesEntries({ cell, station, result, item }: AuditedStation): AuditEntry[] {
  const name = station.station;
  return [
    {
      result: `${name}: minutes of moving the harness`,
      value: result.harnessMin,
      formula: result.harnessLines.map((line) => line.formula).join(' + '),
      inputs: [
        ...item(...result.harnessLines.flatMap((line) => line.items)),
        signalInput(cell, station, 'signals', station.signals),
      ],
    },
    {
      result: `${name}: minutes with a box`,
      value: result.boxMin,
      formula: result.boxLines.map((line) => line.formula).join(' + '),
      inputs: item(...result.boxLines.flatMap((line) => line.items)),
    },
  ];
}

function costEntries(at: AuditedStation): AuditEntry[] {
  const { inputs, station, result, item } = at;
  const name = station.station;
  const lost = `${name}: contribution lost per standing hour`;
  return [
    { result: lost, value: lostPerHour(inputs, station), ...lostSource(at) },
    {
      result: `${name}: cost of a minute`,
      value: result.labourPerMin + result.contributionPerMin,
      formula:
        'labour_per_h x (1 + labour_burden_pct/100) / 60 x people + contribution lost per hour / 60 x internal_pct/100',
      inputs: [
        ...item('labour_per_h', 'labour_burden_pct'),
        rowInput(station, 'people', station.people),
        rowInput(station, 'internal_pct', 100 * station.internalShare),
        derived(lost, lostPerHour(inputs, station)),
      ],
    },
  ];
}

/** What an hour of the machine is worth: typed, by the floor or the steady cell, or nothing. */
function lostSource(at: AuditedStation): Pick<AuditEntry, 'formula' | 'inputs'> {
  const { station, item } = at;
  const { source, lost } = station.standing;
  if (source === 'nothing')
    return {
      formula: '0: an hour of this machine standing loses no part that would be sold',
      inputs: item('machine_constrained', 'order_book_full'),
    };
  if (source === 'typed')
    return { formula: 'contribution_per_machine_h', inputs: item('contribution_per_machine_h') };
  return {
    formula: 'sum over the parts of parts lost per hour x contribution x share that would be sold',
    inputs: [
      ...lost.map((row) => ({ item: `${row.part} lost per hour`, value: row.perH, place: null })),
      ...partInputs(at),
    ],
  };
}

function partInputs({ cell, station }: AuditedStation): AuditInput[] {
  const passes = (part: string) =>
    cell.routes.some(
      (route) => route.part === part && route.steps.some((step) => step.stations.includes(station.station)),
    );
  return cell.parts
    .filter((row) => passes(row.part))
    .flatMap((row) => [
      { item: `contribution of ${row.part}`, value: row.contribution ?? 0, place: row.at ?? null },
      { item: `yield_pct of ${row.part}`, value: row.yieldPct, place: row.at ?? null },
    ]);
}

function savingEntries({ station, result, item }: AuditedStation): AuditEntry[] {
  const name = station.station;
  const saved = `${name}: minutes saved per year`;
  const count = `${name}: changeovers per year`;
  return [
    {
      result: count,
      value: result.changeoversPerYear,
      formula: 'per_year x changeover_count_pct/100',
      inputs: [rowInput(station, 'per_year', station.perYear), ...item('changeover_count_pct')],
    },
    {
      result: saved,
      value: result.savedMinPerYear,
      formula: 'changeovers per year x (minutes of moving the harness - minutes with a box)',
      inputs: [
        derived(count, result.changeoversPerYear),
        derived(`${name}: minutes of moving the harness`, result.harnessMin),
        derived(`${name}: minutes with a box`, result.boxMin),
      ],
    },
    {
      result: `${name}: saving per year`,
      value: result.savingPerYear,
      formula: 'minutes saved per year x cost of a minute',
      inputs: [
        derived(saved, result.savedMinPerYear),
        derived(`${name}: cost of a minute`, result.labourPerMin + result.contributionPerMin),
      ],
    },
  ];
}

function boxEntries({ cell, station, result, item }: AuditedStation): AuditEntry[] {
  const name = station.station;
  const { demand } = station;
  const counted = (what: string, value: number) => signalInput(cell, station, what, value);
  return [
    {
      result: `${name}: boxes`,
      value: result.boxes,
      formula: demand
        ? 'the largest of inputs / box_inputs, outputs / box_outputs, amperes / box_amps, rounded up'
        : 'boxes_per_machine',
      inputs: demand
        ? [
            counted('inputs', demand.inputs),
            counted('outputs', demand.outputs),
            counted('amperes', demand.loadA),
            ...item('box_inputs', 'box_outputs', 'box_amps'),
          ]
        : item('boxes_per_machine'),
    },
    {
      result: `${name}: capital`,
      value: result.capital,
      formula:
        'price of the order + boxes x cable_set_price + (boxes x box_mount_h + signals x box_wire_min_per_signal / 60) x install_per_h; fitted alone, so without practice (install_learning_pct)',
      inputs: [
        derived(`${name}: boxes`, result.boxes),
        ...item('box_price', 'box_price_breaks', 'cable_set_price', 'box_mount_h', 'box_wire_min_per_signal'),
        ...item('install_per_h'),
        counted('signals', station.signals),
      ],
    },
  ];
}

function worthEntries({ inputs, station, result, breakEven, item }: AuditedStation): AuditEntry[] {
  const name = station.station;
  const capital = derived(`${name}: capital`, result.capital);
  const saving = derived(`${name}: saving per year`, result.savingPerYear);
  const rates = item('discount_pct', 'inflation_pct', 'box_upkeep_per_year', 'box_salvage');
  const wear = item('connector_price', 'connector_matings', 'box_plug_price', 'box_plug_matings');
  const years = num(inputs, 'horizon_years');
  return [
    {
      result: `${name}: present value of a box on this machine alone`,
      value: result.npv,
      formula: `-capital + sum over years 1 to ${years} of (saving - upkeep + connector sets saved - plugs worn) x (1 + inflation)^y / (1 + discount)^y + salvage in the last year`,
      inputs: [capital, saving, ...rates, ...wear, ...item('horizon_years')],
    },
    {
      result: `${name}: changeovers at which its box breaks even`,
      value: breakEven,
      formula: 'the least count over the horizon at which that present value is 0 or more',
      inputs: [capital, saving, ...rates, ...wear, ...item('horizon_years')],
    },
  ];
}
