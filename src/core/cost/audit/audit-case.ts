/** Where the figures of the whole case come from: each way, each difference, the selection, the risk. */
import type { AlternativeResult, AuditEntry, AuditInput, CostCaseFound, IncrementResult } from '../result.js';
import { derived, type ItemReader } from './audit-inputs.js';

/** The figures that are traced. */
export type AuditFigures = Pick<
  CostCaseFound,
  | 'alternatives'
  | 'increment'
  | 'breakEvenChangeovers'
  | 'byStation'
  | 'sharedNpv'
  | 'selection'
  | 'plannedChangeovers'
  | 'risk'
  | 'riskOfChoice'
>;

export function caseEntries(figures: AuditFigures, item: ItemReader): AuditEntry[] {
  const [moving] = figures.alternatives;
  const harness = [
    capitalOf(moving!),
    derived(`${moving!.name}: mean running cost of a year`, moving!.annualCost),
  ];
  return [
    ...figures.alternatives.flatMap((alternative) => alternativeEntries(alternative, figures, item)),
    ...figures.alternatives.flatMap((alternative) => [
      ...incrementEntries(alternative.name, '', alternative.increment, item, harness),
      ...incrementEntries(alternative.name, ' after tax', alternative.incrementAfterTax, item, harness),
    ]),
    ...wholeEntries(figures, item),
    ...riskEntries(figures, item),
  ];
}

const capitalOf = (a: AlternativeResult) => derived(`${a.name}: capital`, a.capital);

function alternativeEntries(a: AlternativeResult, figures: AuditFigures, item: ItemReader): AuditEntry[] {
  const yearly = `${a.name}: mean running cost of a year`;
  const worth = `${a.name}: present value of the cost`;
  const machines = figures.byStation.filter((s) => a.stations.includes(s.station));
  return [
    {
      result: `${a.name}: capital`,
      value: a.capital,
      formula:
        a.boxes === 0
          ? 'harness_price'
          : 'price of the order of all boxes + cables, mounting and wiring of its machines (practice: install_learning_pct) + harness_price where a machine keeps the harness',
      inputs: [
        ...item('harness_price'),
        ...(a.boxes === 0 ? [] : item('box_price', 'box_price_breaks', 'install_learning_pct')),
        ...(a.boxes === 0 ? [] : item('cable_set_price', 'box_mount_h', 'box_wire_min_per_signal')),
        ...(a.boxes === 0 ? [] : item('install_per_h')),
        ...machines.map((s) => derived(`${s.station}: boxes`, s.boxes)),
      ],
    },
    {
      result: yearly,
      value: a.annualCost,
      formula:
        'mean over the years of (sum over machines of changeovers x minutes of their way x cost of a minute + boxes x box_upkeep_per_year + sets worn out x their price) x (1 + inflation)^y',
      inputs: [
        ...figures.byStation.flatMap((s) => [
          derived(`${s.station}: changeovers per year`, s.changeoversPerYear),
          a.stations.includes(s.station)
            ? derived(`${s.station}: minutes with a box`, s.boxMin)
            : derived(`${s.station}: minutes of moving the harness`, s.harnessMin),
          derived(`${s.station}: cost of a minute`, s.labourPerMin + s.contributionPerMin),
        ]),
        ...item('box_upkeep_per_year', 'inflation_pct', 'connector_price', 'connector_matings'),
        ...item('box_plug_price', 'box_plug_matings', 'box_move_min'),
      ],
    },
    {
      result: worth,
      value: a.npvCost,
      formula:
        'capital + sum over years y of (changeovers + upkeep + worn connectors) x (1 + inflation)^y / (1 + discount)^y - salvage in the last year',
      inputs: [
        capitalOf(a),
        derived(yearly, a.annualCost),
        ...item('horizon_years', 'discount_pct', 'inflation_pct', 'box_salvage'),
      ],
    },
    {
      result: `${a.name}: the same cost every year`,
      value: a.annualEquivalent,
      formula: 'present value x discount / (1 - (1 + discount)^-years); present value / years at a rate of 0',
      inputs: [derived(worth, a.npvCost), ...item('discount_pct', 'horizon_years')],
    },
  ];
}

/** The measures of one way less moving the harness, whose figures are the `baseline`. */
function incrementEntries(
  name: string,
  tax: string,
  increment: IncrementResult | null,
  item: ItemReader,
  baseline: readonly AuditInput[],
): AuditEntry[] {
  if (increment === null) return [];
  const flows = increment.cashFlow.map(
    (value, year): AuditInput => ({
      item: `difference of year ${year}`,
      value,
      place: null,
      from: `${name}: cash flow less that of the harness${tax}`,
    }),
  );
  const taxItems = tax === '' ? [] : item('tax_pct', 'depreciation', 'depreciation_years');
  const measure = (
    what: string,
    value: number | null,
    formula: string,
    inputs: AuditInput[],
  ): AuditEntry => ({ result: `${name}: ${what}${tax}`, value, formula, inputs });
  const rate = item('discount_pct');
  return [
    measure(
      'cash flow less that of the harness',
      increment.cashFlow.reduce((sum, flow) => sum + flow, 0),
      tax === ''
        ? 'each year: money in less money out of this way, less the same of the harness; the figure is their plain sum'
        : 'running costs x (1 - tax) and tax x depreciation each year; in the last year salvage less tax on salvage above what is not written off; the figure is their plain sum',
      [
        ...taxItems,
        ...baseline,
        ...increment.cashFlow.map((value, year) => ({
          item: `year ${year}`,
          value,
          place: null,
          from: year === 0 ? `${name}: capital` : `${name}: mean running cost of a year`,
        })),
        ...item('box_salvage', 'horizon_years'),
      ],
    ),
    measure('net present value', increment.npv, 'sum over years y of difference(y) / (1 + discount)^y', [
      ...rate,
      ...flows,
    ]),
    measure(
      'internal rate of return, %',
      increment.irrPct,
      'every rate above -100 % at which the differences are worth 0; one figure only where there is one',
      flows,
    ),
    measure(
      'modified rate of return, %',
      increment.mirrPct,
      '(income carried to the last year at reinvest_pct / outlays brought to year 0 at finance_pct)^(1/years) - 1',
      [...item('reinvest_pct', 'finance_pct', 'horizon_years'), ...flows],
    ),
    measure(
      'payback, years',
      increment.paybackYears,
      'the time at which the running sum of the differences reaches 0, even within a year',
      flows,
    ),
    measure(
      'discounted payback, years',
      increment.discountedPaybackYears,
      'the same with each difference brought to year 0 at the discount rate',
      [...rate, ...flows],
    ),
    measure(
      'benefit for each unit spent',
      increment.benefitCost,
      'present value of years 1 and later / money spent in year 0',
      [...rate, ...flows],
    ),
    measure(
      'the same gain every year',
      increment.annualEquivalent,
      'net present value x discount / (1 - (1 + discount)^-years); / years at a rate of 0',
      [derived(`${name}: net present value${tax}`, increment.npv), ...rate],
    ),
  ];
}

function wholeEntries(figures: AuditFigures, item: ItemReader): AuditEntry[] {
  const { breakEvenChangeovers: even, selection, byStation, increment } = figures;
  const counts = byStation.map((s) => derived(`${s.station}: changeovers per year`, s.changeoversPerYear));
  return [
    {
      result: 'planned changeovers over the horizon',
      value: figures.plannedChangeovers,
      formula: 'sum over machines of changeovers per year x horizon_years',
      inputs: [...counts, ...item('horizon_years')],
    },
    {
      result: 'break-even changeovers',
      value: even.total,
      formula: even.meaning,
      inputs: [
        derived('planned changeovers over the horizon', figures.plannedChangeovers),
        ...figures.alternatives.slice(0, 2).map(capitalOf),
      ],
    },
    {
      result: 'order prices, wear and the harness shared by all machines',
      value: figures.sharedNpv,
      formula: 'net present value of boxes everywhere - sum of the present values of the machines alone',
      inputs: [
        derived(`${figures.alternatives[1]!.name}: net present value`, increment.npv),
        ...byStation.map((s) => derived(`${s.station}: present value of a box on this machine alone`, s.npv)),
      ],
    },
    {
      result: 'value of the selection',
      value: selection.npv,
      formula: 'largest net present value of any set of machines whose boxes keep the budget',
      inputs: item('budget', 'box_price', 'box_price_breaks'),
    },
  ];
}

function riskEntries({ risk, riskOfChoice }: AuditFigures, item: ItemReader): AuditEntry[] {
  if (risk.items.length === 0) return [];
  const entry = (what: string, of: typeof risk): AuditEntry => ({
    result: `chance that ${what}, %`,
    value: 100 * of.probabilityPays,
    formula: `share of ${of.trials} trials (seed ${of.seed}) with a net present value above 0; every item with a low and a high drawn from its own ${of.distribution === 'pert' ? 'PERT' : 'triangular'} distribution`,
    inputs: item(...of.items),
  });
  return [
    entry('boxes on every machine pay', risk),
    ...(riskOfChoice ? [entry('the recommended way pays', riskOfChoice)] : []),
  ];
}
