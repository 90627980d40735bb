/** A simulation as text: the answer first, then parts, losses, rules, response, robot and stations, closed forms. */
import { listText } from '../core/model/list-text.js';
import { amountOf, nameText } from '../core/model/name-text.js';
import type { Estimate, SimulationResult } from '../core/simulate/simulation-result.js';
import type { SimulationStudy } from '../core/simulate/study-cell.js';
import type { ClosedForm } from '../core/size/closed-form.js';
import { byShiftText, quantilesText } from './by-shift.js';
import { countText, numberText, signedText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import {
  ruleTable,
  simulatedLossTable,
  simulatedPartTable,
  simulatedRobotTable,
  simulatedStationTable,
  stationWaitTable,
} from './result-tables/simulation-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { right, textTable } from './text-table.js';

/** The closed forms for the cell's number of machines, or why there are none. */
export type Explanation =
  | { readonly closedForm: ClosedForm; readonly alike: boolean }
  | { readonly closedForm: null; readonly reason: string };

export interface SimulationView {
  readonly study: SimulationStudy;
  /** Shift pattern; null = day and night. */
  readonly pattern: string | null;
  /** null where the closed forms were not asked for. */
  readonly explanation: Explanation | null;
}

export function renderSimulation(view: SimulationView, style: TextStyle): string {
  const { result, rules, ruleToProgram } = view.study;
  const { said, section, filled } = printer(style);
  if (result.deadlock !== null) return lockedText(view, style);
  return pieces(
    said(...simulationSentences(view)),
    style.full && section('Good parts a shift', simulatedPartTable(result)),
    result.losses.length > 0 && section('Losses (parts a shift)', simulatedLossTable(result)),
    ruleToProgram !== null && section('Robot programs with the same random numbers', ruleTable(rules)),
    style.full && section('Stations, % of the open hours', simulatedStationTable(result)),
    style.full && filled('Why stations wait, % of the open hours', stationWaitTable(result)),
    style.full && section('Robot, % of the open hours', simulatedRobotTable(result)),
    view.explanation !== null &&
      section('Closed forms, as a cross-check', explanationText(view.explanation, result, style)),
  );
}

/** What a shift makes and how sure that is, how it was run, the largest loss, the rule to program, the response. */
export function simulationSentences(view: SimulationView): string[] {
  const { result, responseCost } = view.study;
  return [
    ...(result.complete ? [] : [incompleteText(result)]),
    yieldText(result),
    runText(view),
    ...(result.losses.length > 0 ? [lossText(result)] : []),
    ...(view.study.ruleToProgram === null ? [] : [view.study.ruleToProgram]),
    ...(responseCost === null ? [] : [responseText(responseCost)]),
  ];
}

function incompleteText({ replications }: SimulationResult): string {
  return `INCOMPLETE: the work was stopped after ${countText(replications, 'run')}; what follows rests on no more than that.`;
}

function yieldText(result: SimulationResult): string {
  const total = result.partsPerShift.total!;
  const of = Object.entries(result.partsPerShift).filter(([part]) => part !== 'total');
  const made = of
    .filter(([, { mean }]) => mean > 0)
    .map(([part, { mean }]) => amountOf(numberText(mean, 1), part));
  const none = of.filter(([, { mean }]) => mean === 0).map(([part]) => nameText(part));
  const each =
    of.length > 1 ? ` (${listText(made)}${none.length === 0 ? '' : `; none of ${none.join(', ')}`})` : '';
  const sure =
    total.ciLow === null || total.ciHigh === null
      ? ', from one run only, so there is no interval for it'
      : `; ${numberText(result.confidencePct)}% confidence ${numberText(total.ciLow, 1)} to ${numberText(total.ciHigh, 1)}`;
  const makes = `The cell makes ${numberText(total.mean, 1)} good parts a shift with downtime and variation${each}${sure}.`;
  return `${makes} ${result.byShift.length > 1 ? 'By shift' : 'Shift to shift'}: ${spreadText(result)}.`;
}

/** How single shifts differ: those of each name for themselves. */
function spreadText({ partsPerShift, byShift }: SimulationResult): string {
  if (byShift.length < 2) return quantilesText(partsPerShift.total!);
  return byShiftText(
    byShift.map(({ shift, partsPerShift: { total } }) => ({ shift, parts: total!.mean, ...total! })),
  );
}

function runText({ study: { result }, pattern }: SimulationView): string {
  const when = pattern === null ? 'day and night' : `pattern "${pattern}"`;
  const precision =
    result.halfWidthPct === null ? '' : `; precision ±${numberText(result.halfWidthPct, 2)}% of the mean`;
  return `Simulated: ${countText(result.replications, 'run')} of ${numberText(result.horizonH, 1)} h (${countText(result.shifts, 'shift')}), ${when}, warm-up ${numberText(result.warmupH, 1)} h, robot program \`${result.dispatch}\`, seed ${result.seed}${precision}.`;
}

function lossText({ losses, ceilingPerShift, ceilingIsMaximum }: SimulationResult): string {
  const largest = losses.reduce((a, b) => (b.partsPerShift > a.partsPerShift ? b : a));
  if (!(largest.partsPerShift > 0)) return 'No cause loses parts.';
  return `${ceilingIsMaximum ? 'Maximum without losses' : 'Without the losses below:'} ${numberText(ceilingPerShift!, 1)} good parts a shift. Largest loss: ${largest.cause}, ${numberText(largest.partsPerShift, 1)}.`;
}

function responseText(cost: Estimate & { readonly clear: boolean }): string {
  if (!cost.clear)
    return `Operator response time shows no clear cost in these runs (${signedText(cost.mean, 1)} parts a shift${boundsText(cost)}).`;
  return `Operator response time costs ${numberText(cost.mean, 1)} good parts a shift${boundsText(cost)}; the losses below hold it.`;
}

function boundsText({ ciLow, ciHigh }: Estimate): string {
  return ciLow === null || ciHigh === null ? '' : `, ${numberText(ciLow, 1)} to ${numberText(ciHigh, 1)}`;
}

/** Forms in the order in which they are told, with their names. */
const FORMS = [
  ['synchronous', 'synchronous servicing'],
  ['random', 'random servicing'],
  ['wright', 'Wright'],
  ['finiteSource', 'exponential times'],
  ['constantService', 'constant service'],
] as const;

function explanationText(explained: Explanation, result: SimulationResult, style: TextStyle): string {
  if (explained.closedForm === null)
    return paragraph(`They do not apply here: ${explained.reason}.`, style.columns);
  const { closedForm: form, alike } = explained;
  const machines = result.stations.filter((s) => s.kind === 'machine');
  const mean = (of: (s: (typeof machines)[number]) => number): number =>
    machines.reduce((sum, s) => sum + of(s), 0) / machines.length;
  const rate =
    ((result.partsPerShift.total!.mean + result.scrapPerShift.mean) * result.shifts) / result.horizonH;
  const figures = (a: number, b: number, c: number): string[] => [a, b, c].map((v) => numberText(v, 1));
  const table = textTable(
    [{ heading: 'by' }, right('parts an\nopen hour'), right('working\n%'), right('blocked\n%')],
    [
      [
        'the simulation',
        ...figures(
          rate,
          mean((s) => s.processingPct.mean),
          mean((s) => s.waitRobotPct.mean),
        ),
      ],
      ...FORMS.map(([key, name]) => {
        const row = form[key].rows[0]!;
        return [name, ...figures(row.partsPerH, row.machineUtilizationPct, row.waitRobotPct)];
      }),
    ],
    style,
  );
  const { serviceS, runS, walkS } = form.times;
  const times = `For ${countText(form.synchronous.rows[0]!.machines, 'machine')} with service ${numberText(serviceS, 1)} s, run ${numberText(runS, 1)} s and walk ${numberText(walkS, 1)} s${alike ? '' : ' (means over the machines, which differ)'}. One robot keeps up with ${numberText(form.synchronous.idealMachines, 2)} such machines. The closed forms leave out stops, shifts, racks and scrap.`;
  return [
    table,
    paragraph(times, style.columns),
    bullets(
      FORMS.map(([key, name]) => `${name}: ${form[key].assumption}`.replaceAll('’', "'")),
      style.columns,
    ),
  ].join('\n');
}

/** Why the cell came to a stand, and what to try. */
function lockedText({ study: { result, ruleToProgram } }: SimulationView, style: TextStyle): string {
  return printer(style).said(
    `Under the robot program \`${result.dispatch}\` the cell locks up: nothing can move any more.`,
    result.deadlock!,
    ruleToProgram ??
      'Try another program with --dispatch, or change the cell: a place to set parts down, or an operator where one is waited for.',
  );
}
