/** Where each figure comes from: its formula, and its inputs with the file and line that gave them. */
import type { Cell } from '../../model/cell.js';
import { HARNESS } from '../../model/plan-words.js';
import type { CaseInputs } from '../case-inputs.js';
import type { NamedPlan } from '../plan-flows.js';
import type { AuditEntry, CaseFigures } from '../result.js';
import { incrementEntries } from './audit-increments.js';
import { type AuditedCase, itemReader, Trail } from './audit-inputs.js';
import {
  type AuditedStation,
  costEntries,
  countEntries,
  minutesEntries,
  savingEntries,
  worthEntries,
} from './audit-stations.js';
import { wayEntries } from './audit-ways.js';
import { formula, sumOf } from './formula.js';

/** @param plans how each machine is served in each of the alternatives, in their order */
export function auditOf(
  cell: Cell,
  inputs: CaseInputs,
  plans: readonly NamedPlan[],
  figures: CaseFigures,
): AuditEntry[] {
  const trail = new Trail();
  const at: AuditedCase = { cell, inputs, item: itemReader(cell, inputs), trail };
  const machines = inputs.stations.map((station, k): AuditedStation => {
    const breakEven = figures.breakEvenChangeovers.byStation[station.station] ?? null;
    return { ...at, station, result: figures.byStation[k]!, breakEven };
  });
  // The figures of each machine name those of the others, so these come first for all of them.
  machines.forEach(countEntries);
  for (const machine of machines) {
    minutesEntries(machine);
    costEntries(machine);
  }
  for (const machine of machines) {
    savingEntries(machine);
    worthEntries(machine);
  }
  figures.alternatives.forEach((result, k) => {
    wayEntries({ ...at, result, ways: plans[k]!.ways });
  });
  for (const way of figures.alternatives) {
    if (way.increment !== null) incrementEntries(at, way, HARNESS, way.increment, '');
    if (way.incrementAfterTax !== null)
      incrementEntries(at, way, HARNESS, way.incrementAfterTax, ' after tax');
  }
  wholeEntries(at, figures);
  riskEntries(at, figures);
  return trail.entries();
}

function wholeEntries({ item, trail }: AuditedCase, figures: CaseFigures): void {
  const { breakEvenChangeovers: even, selection, byStation, alternatives } = figures;
  const planned = trail.add(
    'planned changeovers over the horizon',
    figures.plannedChangeovers,
    formula`(${sumOf(byStation.map((s) => trail.figure(`${s.station}: changeovers per year`)))}) x ${item('horizon_years')}`,
  );
  trail.found('search', 'break-even changeovers', even.total, `search: ${even.meaning}`, [
    planned,
    ...alternatives.slice(0, 2).map((a) => trail.figure(`${a.name}: capital`)),
  ]);
  const alone = byStation.map((s) =>
    trail.figure(`${s.station}: present value of a box on this machine alone`),
  );
  trail.add(
    'order prices, wear and the harness shared by all machines',
    figures.sharedNpv,
    formula`${trail.figure(`${alternatives[1]!.name}: net present value`)} - (${sumOf(alone)})`,
  );
  trail.found(
    'search',
    'value of the selection',
    selection.npv,
    'search: largest net present value of any set of machines whose boxes keep the budget',
    [item('budget'), item('box_price'), item('box_price_breaks')],
  );
}

function riskEntries({ item, trail }: AuditedCase, { risk, riskOfChoice }: CaseFigures): void {
  if (risk.items.length === 0) return;
  const entry = (what: string, of: typeof risk): void => {
    trail.found(
      'trials',
      `chance that ${what}`,
      100 * of.probabilityPays,
      `trials: share of ${of.trials} (seed ${of.seed}) with a net present value above 0; every item with a low and a high drawn from its own ${of.distribution === 'pert' ? 'PERT' : 'triangular'} distribution`,
      of.items.map(item),
    );
  };
  entry('boxes on every machine pay', risk);
  if (riskOfChoice) entry('the recommended option pays', riskOfChoice);
}
