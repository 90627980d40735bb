/** Where each figure comes from: its formula, and its inputs with the file and line that gave them. */
import type { Cell } from '../model/cell.js';
import { costItems } from '../model/cost-items.js';
import { givenCost } from '../model/cost-value.js';
import type { CaseInputs, CaseStation } from './case-inputs.js';
import { lostPerHour } from './changeover-minutes.js';
import type { AuditEntry, AuditInput, CostCaseFound, StationResult } from './result.js';

type Figures = Pick<
  CostCaseFound,
  | 'alternatives'
  | 'increment'
  | 'incrementAfterTax'
  | 'breakEvenChangeovers'
  | 'byStation'
  | 'selection'
  | 'plannedChangeovers'
>;

export function auditOf(cell: Cell, inputs: CaseInputs, figures: Figures): AuditEntry[] {
  const item = itemReader(cell, inputs);
  const machines = inputs.stations.flatMap((station, k) =>
    stationEntries(cell, inputs, station, figures.byStation[k]!, item),
  );
  return [...machines, ...caseEntries(figures, item)];
}

type ItemReader = (...names: string[]) => AuditInput[];

/** Items with the value that counts (options and defaults included) and where it was given. */
function itemReader(cell: Cell, inputs: CaseInputs): ItemReader {
  return (...names) =>
    names.map((name) => {
      const given = givenCost(cell.costs, name);
      const fallback = costItems.find((format) => format.name === name)?.default ?? 'not given';
      const value = inputs.numbers[name] ?? given?.value ?? fallback;
      return { item: given ? name : `${name} (default)`, value, place: given?.at ?? null };
    });
}

function stationEntries(
  cell: Cell,
  inputs: CaseInputs,
  station: CaseStation,
  result: StationResult,
  item: ItemReader,
): AuditEntry[] {
  const at = station.at;
  const name = station.station;
  const row = (column: string, value: number): AuditInput => ({
    item: `${column} of ${name}`,
    value,
    place: at,
  });
  const firstSignal = cell.signals.find((signal) => signal.station === name)?.at ?? null;
  const signals: AuditInput = { item: `signals of ${name}`, value: station.signals, place: firstSignal };
  const worth: AuditInput = {
    item: `contribution lost per standing hour of ${name}`,
    value: lostPerHour(inputs, station),
    place: givenCost(cell.costs, 'contribution_per_machine_h')?.at ?? null,
  };
  const saved = result.harnessMin - result.boxMin;
  return [
    {
      result: `${name}: minutes of moving the harness`,
      value: result.harnessMin,
      formula: result.harnessLines.map((line) => line.formula).join(' + '),
      inputs: [...item(...unique(result.harnessLines.flatMap((line) => line.items))), signals],
    },
    {
      result: `${name}: minutes with a box`,
      value: result.boxMin,
      formula: result.boxLines.map((line) => line.formula).join(' + '),
      inputs: item(...unique(result.boxLines.flatMap((line) => line.items))),
    },
    {
      result: `${name}: cost of a minute`,
      value: result.labourPerMin + result.contributionPerMin,
      formula:
        'labour_per_h x (1 + labour_burden_pct/100) / 60 x people + contribution lost per hour / 60 x internal_pct/100',
      inputs: [
        ...item('labour_per_h', 'labour_burden_pct'),
        row('people', station.people),
        row('internal_pct', 100 * station.internalShare),
        worth,
      ],
    },
    {
      result: `${name}: saving per year`,
      value: result.savingPerYear,
      formula:
        'changeovers per year x (minutes of moving the harness - minutes with a box) x cost of a minute',
      inputs: [
        row('changeovers per year', result.changeoversPerYear),
        { item: 'minutes saved', value: saved, place: null },
        { item: 'cost of a minute', value: result.labourPerMin + result.contributionPerMin, place: null },
      ],
    },
    {
      result: `${name}: capital`,
      value: result.capital,
      formula:
        'price of the order + boxes x cable_set_price + (boxes x box_mount_h + signals x box_wire_min_per_signal / 60) x install_per_h; fitted alone, so without practice (install_learning_pct)',
      inputs: [
        { item: `boxes of ${name}`, value: result.boxes, place: null },
        ...item('box_price', 'box_price_breaks', 'cable_set_price', 'box_mount_h', 'box_wire_min_per_signal'),
        ...item('install_per_h'),
        signals,
      ],
    },
    {
      result: `${name}: boxes`,
      value: result.boxes,
      formula: station.demand
        ? 'the largest of inputs / box_inputs, outputs / box_outputs, amperes / box_amps, rounded up'
        : 'boxes_per_machine',
      inputs: station.demand
        ? [
            { item: `inputs of ${name}`, value: station.demand.inputs, place: firstSignal },
            { item: `outputs of ${name}`, value: station.demand.outputs, place: firstSignal },
            { item: `amperes of ${name}`, value: station.demand.loadA, place: firstSignal },
            ...item('box_inputs', 'box_outputs', 'box_amps'),
          ]
        : item('boxes_per_machine'),
    },
  ];
}

function caseEntries(figures: Figures, item: ItemReader): AuditEntry[] {
  const capital = figures.alternatives.map((a) => ({
    item: `capital: ${a.name}`,
    value: a.capital,
    place: null,
  }));
  const flows = figures.alternatives.map(
    (alternative): AuditEntry => ({
      result: `${alternative.name}: present value of the cost`,
      value: alternative.npvCost,
      formula:
        'capital + sum over years y of (changeovers + upkeep + worn connectors) x (1 + inflation)^y / (1 + discount)^y - salvage in the last year',
      inputs: [
        { item: `capital: ${alternative.name}`, value: alternative.capital, place: null },
        { item: `mean cost of a year: ${alternative.name}`, value: alternative.annualCost, place: null },
        ...item('horizon_years', 'discount_pct', 'inflation_pct', 'box_upkeep_per_year', 'box_salvage'),
        ...item('connector_price', 'connector_matings'),
      ],
    }),
  );
  const { increment, incrementAfterTax, breakEvenChangeovers: even, selection } = figures;
  return [
    ...flows,
    {
      result: 'net present value of boxes everywhere',
      value: increment.npv,
      formula: 'sum of increment(y) / (1 + discount)^y, increment = boxes everywhere less the harness',
      inputs: item('discount_pct', 'horizon_years'),
    },
    {
      result: 'internal rate of return, %',
      value: increment.irrPct,
      formula:
        'every rate above -100 % at which the increment is worth 0; one figure only where there is one',
      inputs: increment.cashFlow.map((value, year) => ({
        item: `increment of year ${year}`,
        value,
        place: null,
      })),
    },
    {
      result: 'modified rate of return, %',
      value: increment.mirrPct,
      formula:
        '(income carried to the last year at reinvest_pct / outlays brought to year 0 at finance_pct)^(1/H) - 1',
      inputs: item('reinvest_pct', 'finance_pct', 'horizon_years'),
    },
    ...(incrementAfterTax
      ? [
          {
            result: 'net present value after tax',
            value: incrementAfterTax.npv,
            formula:
              'running costs x (1 - tax) and tax x depreciation each year; in the last year salvage less tax on salvage above what is not written off',
            inputs: item('tax_pct', 'depreciation', 'depreciation_years', 'discount_pct'),
          },
        ]
      : []),
    {
      result: 'break-even changeovers',
      value: even.total,
      formula: even.meaning,
      inputs: [{ item: 'planned changeovers', value: figures.plannedChangeovers, place: null }, ...capital],
    },
    {
      result: 'value of the selection',
      value: selection.npv,
      formula: 'largest net present value of any set of machines whose boxes keep the budget',
      inputs: item('budget', 'box_price', 'box_price_breaks'),
    },
  ];
}

function unique(names: readonly string[]): string[] {
  return [...new Set(names)];
}
