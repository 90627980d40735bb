/**
 * What a planner asks of a simulation: what the cell yields, which dispatch rule to program, and what the operator's
 * response time costs; all under the same luck, run by run.
 */

import { RESPONSE_CAUSE } from '../floor/loss-switches.js';
import type { Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import { listText } from '../model/list-text.js';
import type { ByPart } from '../shifts/shift-yield.js';
import { pairedEstimate } from './estimate.js';
import { simulateCell } from './simulate-cell.js';
import type { SimulateContext, SimulateOptions } from './simulation-options.js';
import type { Estimate, ShiftParts, SimulationResult } from './simulation-result.js';

/** One rule beside the simulated one. */
export interface RuleYield {
  readonly dispatch: Program;
  /** Good parts per shift of all parts together; null where the rule locks the cell up. */
  readonly partsPerShift: ShiftParts | null;
  /** Good parts per shift, this rule less the simulated one, run by run; null for that one itself, or without a pair. */
  readonly difference: Estimate | null;
  /** The interval, drawn so wide that all rules hold together (Bonferroni), leaves out 0. */
  readonly clear: boolean;
  /** Parts per shift that wait longer than their step allows. */
  readonly overstaysPerShift: number;
  /** The parts come in another proportion than under the simulated rule, by more than a hundredth of all. */
  readonly mixDiffers: boolean;
  /** Who waits for whom, where the rule locks the cell up. */
  readonly deadlock: string | null;
}

/** Good parts per shift that are lost to the operator's response time: its row among the losses. */
export interface ResponseCost extends Estimate {
  readonly clear: boolean;
}

export interface SimulationStudy {
  readonly result: SimulationResult;
  /** The simulated rule first; empty where no comparison was asked or there was no time for it. */
  readonly rules: readonly RuleYield[];
  /** Which rule to program, in sentences; null without a comparison. */
  readonly ruleToProgram: string | null;
  /** null where nobody is called or no response time is given. */
  readonly responseCost: ResponseCost | null;
}

export interface StudyOptions extends SimulateOptions {
  /** Programs to hold beside the simulated one. */
  readonly against: readonly Program[];
}

/**
 * @param cell a cell whose tables have been checked
 * @throws RangeError as simulateCell
 */
export async function studyCell(
  cell: Cell,
  options: StudyOptions,
  context: SimulateContext = {},
): Promise<SimulationStudy> {
  const { against, ...shared } = options;
  const result = await simulateCell(cell, shared, context);
  const { halfWidthPct: _, ...plain } = shared;
  const beside: SimulateOptions = { ...plain, replications: result.replications, losses: false };
  const others = against.length === 0 ? null : await besides(cell, beside, against, result, context);
  const rules = others === null ? [] : [mainYield(options.program, result), ...others];
  return {
    result,
    rules,
    ruleToProgram: rules.length === 0 ? null : ruleToProgram(rules),
    responseCost: responseCost(result),
  };
}

/** null where a stop signal came before all were done. */
async function besides(
  cell: Cell,
  options: SimulateOptions,
  against: readonly Program[],
  main: SimulationResult,
  context: SimulateContext,
): Promise<RuleYield[] | null> {
  const done: RuleYield[] = [];
  for (const program of against) {
    const run = await fullRun(cell, { ...options, program }, context);
    if (run === null) return null;
    done.push(yieldBeside(program, run, main, against.length));
  }
  return done;
}

/** A run with all its replications; null where a stop signal came first. */
async function fullRun(
  cell: Cell,
  options: SimulateOptions,
  context: SimulateContext,
): Promise<SimulationResult | null> {
  if (context.signal?.aborted === true) return null;
  try {
    const run = await simulateCell(cell, options, context);
    return run.replications === options.replications ? run : null;
  } catch (error) {
    if (stopped(context)) return null;
    throw error;
  }
}

/** Asked anew after every wait: the signal may have come meanwhile. */
function stopped(context: SimulateContext): boolean {
  return context.signal?.aborted === true;
}

function mainYield(dispatch: Program, { partsPerShift, overstays, deadlock }: SimulationResult): RuleYield {
  const parts = deadlock === null ? partsPerShift.total! : null;
  const overstaysPerShift = overstays.reduce((sum, o) => sum + o.partsPerShift.mean, 0);
  return {
    dispatch,
    partsPerShift: parts,
    difference: null,
    clear: false,
    overstaysPerShift,
    mixDiffers: false,
    deadlock,
  };
}

function yieldBeside(
  dispatch: Program,
  run: SimulationResult,
  main: SimulationResult,
  rivals: number,
): RuleYield {
  const alone = mainYield(dispatch, run);
  if (run.deadlock !== null || main.deadlock !== null) return alone;
  const { difference, leastApart } = pairedEstimate(
    run.meanByReplication,
    main.meanByReplication,
    main.confidencePct / 100,
    rivals,
  );
  return {
    ...alone,
    difference,
    clear: leastApart > 1e-9,
    mixDiffers: mixDiffers(meansOf(run), meansOf(main)),
  };
}

/** Share of all parts by which two mixes may differ and still count as one. */
const SAME_MIX = 0.01;

/** @param a amounts by part, and `total` */
export function mixDiffers(a: ByPart, b: ByPart): boolean {
  const share = (of: ByPart, part: string): number => of[part]! / Math.max(1e-9, of.total!);
  return Object.keys(b).some((part) => Math.abs(share(a, part) - share(b, part)) > SAME_MIX);
}

export function meansOf({ partsPerShift }: SimulationResult): ByPart {
  return Object.fromEntries(Object.entries(partsPerShift).map(([part, { mean }]) => [part, mean]));
}

/** @param rules the simulated one first, the others with their difference to it */
function ruleToProgram(rules: readonly RuleYield[]): string {
  const [main, ...others] = rules as [RuleYield, ...RuleYield[]];
  const sound = rules.filter((r) => r.partsPerShift !== null);
  if (sound.length === 0)
    return 'Every program locks the cell up, so it is the cell that has to change: a place to set parts down, or an operator where one is waited for.';
  if (main.partsPerShift === null)
    return `Do not program \`${main.dispatch}\`: it locks the cell up. ${listOf(sound)} did not in these runs.`;
  const better = others.filter((r) => r.clear && r.difference!.mean > 0);
  const worse = others.filter((r) => r.clear && r.difference!.mean < 0);
  const level = others.filter((r) => r.difference !== null && !r.clear);
  const locked = others.filter((r) => r.partsPerShift === null);
  return [
    ...(better.length > 0 ? [betterText(main, better)] : [mainText(main, worse)]),
    ...(level.length > 0
      ? [
          `Between \`${main.dispatch}\` and ${listOf(level)} these runs show no clear difference${better.length > 0 ? '' : '; take the one that is easiest to program'}.`,
        ]
      : []),
    ...(locked.length > 0 ? [`${listOf(locked)} locked the cell up.`] : []),
    ...mixText(main, others),
    ...overstayText(sound),
  ].join(' ');
}

function betterText(main: RuleYield, better: readonly RuleYield[]): string {
  const best = better.reduce((a, b) => (b.difference!.mean > a.difference!.mean ? b : a));
  return `Program \`${best.dispatch}\`: it makes ${best.difference!.mean.toFixed(1)} good parts a shift more than \`${main.dispatch}\`.`;
}

function mainText(main: RuleYield, worse: readonly RuleYield[]): string {
  if (worse.length === 0) return `No program does clearly better than \`${main.dispatch}\`.`;
  const each = worse.map((r) => `${(-r.difference!.mean).toFixed(1)} more than \`${r.dispatch}\``);
  return `Program \`${main.dispatch}\`: it makes ${each.join(', ')} (good parts a shift).`;
}

function mixText(main: RuleYield, others: readonly RuleYield[]): string[] {
  const unlike = others.filter((r) => r.mixDiffers);
  if (unlike.length === 0) return [];
  return [
    `The part mix differs between ${listOf(unlike)} and \`${main.dispatch}\`; compare contribution, not piece count.`,
  ];
}

/** Parts are worth nothing where they have waited too long, so that is told beside the count. */
function overstayText(sound: readonly RuleYield[]): string[] {
  const late = sound.filter((r) => r.overstaysPerShift > 0);
  if (late.length === 0) return [];
  const each = late.map((r) => `\`${r.dispatch}\` ${r.overstaysPerShift.toFixed(1)}`);
  return [
    `But parts wait longer than their step allows: ${each.join(', ')} a shift; these are not counted as good.`,
  ];
}

function listOf(rules: readonly RuleYield[]): string {
  return listText(rules.map((r) => `\`${r.dispatch}\``));
}

/** The loss to the response time, as the table of losses has it. */
function responseCost({ losses }: SimulationResult): ResponseCost | null {
  const loss = losses.find((l) => l.cause === RESPONSE_CAUSE);
  if (loss === undefined) return null;
  const { mean, ciLow, ciHigh } = loss;
  return {
    mean,
    ciLow,
    ciHigh,
    clear: ciLow !== null && ciLow > 1e-9,
  };
}
