/**
 * Simulation of a cell: warm-up, independent replications until the limit or the asked half-width, and what they say
 * about parts per shift, robot, stations and losses. The result depends on cell, options and seed alone, not on who
 * runs the replications or how many threads there are.
 */

import { compileCell } from '../floor/compile-cell.js';
import type { CompiledCell } from '../floor/compiled-cell.js';
import type { ReplicationResult } from '../floor/floor-run.js';
import { lossSwitches, withoutGains } from '../floor/loss-switches.js';
import type { Cell } from '../model/cell.js';
import { machinesSetAPace, withoutRobotTime } from './ceiling-cell.js';
import { countedTime } from './counted-time.js';
import { estimate, halfWidthPct } from './estimate.js';
import { type ReplicationJob, type ReplicationRunner, runHere } from './replication-job.js';
import { simulationAssumptions } from './simulation-assumptions.js';
import {
  type ResolvedOptions,
  resolveOptions,
  type SimulateContext,
  type SimulateOptions,
} from './simulation-options.js';
import type { SimulatedLoss, SimulationResult } from './simulation-result.js';
import {
  meanGood,
  overstays,
  partsByShift,
  partsPerShift,
  robotEstimate,
  shiftsOf,
  stationEstimates,
  sum,
} from './summarize.js';
import { warmupPilot } from './warmup-pilot.js';

/** Replications between two looks at the half-width; fixed, so that threads change nothing. */
const ROUND = 10;

/**
 * @param cell a cell whose tables have been checked
 * @throws RangeError for options outside their range, or a cell that cannot be simulated
 */
export async function simulateCell(
  cell: Cell,
  options: SimulateOptions,
  context: SimulateContext = {},
): Promise<SimulationResult> {
  const resolved = resolveOptions(options);
  const compiled = compileCell(cell);
  const { job, settled } = preparedJob(cell, resolved);
  const now = context.nowMs ?? Date.now;
  const startMs = now();
  const results = await runAll(job, compiled, resolved, context);
  const seconds = Math.max(1e-9, (now() - startMs) / 1000);
  if (results.length === 0) throw new RangeError('the simulation was stopped before a replication was done');
  const sound = results.every((r) => r.deadlock === null);
  const { done, ...found } =
    resolved.losses && sound && context.signal?.aborted !== true
      ? await findLosses(job, compiled, results, resolved, context)
      : { ...NO_LOSSES, done: !resolved.losses || !sound };
  const summary = summarize(cell, compiled, job, results, resolved);
  const events = sum(results.map((r) => r.events));
  return {
    ...summary,
    complete: done && (results.length === resolved.replications || summary.halfWidthReached === true),
    ...found,
    events,
    eventsPerSecond: events / seconds,
    assumptions: simulationAssumptions(cell, resolved),
    warnings: warningsOf(summary, settled),
  };
}

/** The job with its warm-up: as asked, or found by a pilot. */
export function preparedJob(cell: Cell, options: ResolvedOptions): { job: ReplicationJob; settled: boolean } {
  const { program, order, openSpans, operators, seed, changeovers, runsOut } = options;
  const bare: ReplicationJob = {
    ...{ cell, program, order, openSpans, operators, seed, changeovers, runsOut, causes: options.losses },
    ...{ warmupS: 0, shiftsS: [], shiftNames: [] },
  };
  if (options.warmupH !== null)
    return { job: { ...bare, ...countedTime(options, options.warmupH * 3600) }, settled: true };
  const { warmupS, settled } = warmupPilot(bare);
  // A week goes on from the one before, so no shift is counted that begins in an empty cell.
  const leastS = openSpans === null ? 0 : Number.MIN_VALUE;
  return { job: { ...bare, ...countedTime(options, Math.max(leastS, warmupS)) }, settled };
}

async function runAll(
  job: ReplicationJob,
  compiled: CompiledCell,
  options: ResolvedOptions,
  context: SimulateContext,
): Promise<ReplicationResult[]> {
  const run: ReplicationRunner = context.run ?? runHere;
  const results: ReplicationResult[] = [];
  const size = options.halfWidthPct === null ? options.replications : ROUND;
  while (results.length < options.replications && context.signal?.aborted !== true) {
    const first = results.length;
    const count = Math.min(size, options.replications - first);
    const numbers = Array.from({ length: count }, (_, i) => first + i);
    const watch = {
      ...(context.signal === undefined ? {} : { signal: context.signal }),
      onDone: (done: number) => context.onProgress?.(first + done, options.replications),
    };
    results.push(...(await run(job, numbers, watch)));
    if (options.halfWidthPct === null || results.length < 2) continue;
    const reached = halfWidthPct(estimate(meanGood(results, compiled), options.confidence));
    if (reached !== null && reached <= options.halfWidthPct) break;
  }
  return results;
}

type Summary = Omit<
  SimulationResult,
  'complete' | keyof FoundLosses | 'events' | 'eventsPerSecond' | 'assumptions' | 'warnings'
>;

function summarize(
  cell: Cell,
  compiled: CompiledCell,
  job: ReplicationJob,
  results: readonly ReplicationResult[],
  options: ResolvedOptions,
): Summary {
  const { confidence } = options;
  const parts = partsPerShift(compiled, results, confidence);
  const reached = halfWidthPct(parts.total!);
  const periods = results.flatMap((r) => (r.periodS === null ? [] : [r.periodS]));
  const called = results.some((r) => r.operatorBusyS > 0);
  return {
    replications: results.length,
    warmupH: job.warmupS / 3600,
    horizonH: sum(job.shiftsS) / 3600,
    shifts: job.shiftsS.length,
    seed: options.seed,
    confidencePct: 100 * confidence,
    dispatch: options.program,
    halfWidthPct: reached,
    halfWidthReached:
      options.halfWidthPct === null ? null : reached !== null && reached <= options.halfWidthPct,
    partsPerShift: parts,
    byShift: partsByShift(compiled, results, job, confidence),
    scrapPerShift: estimate(
      results.map((r) => sum(r.scrap) / shiftsOf(r, compiled)),
      confidence,
    ),
    robot: robotEstimate(results, confidence),
    stations: stationEstimates(cell, compiled, results, confidence),
    operatorBusyPct: called
      ? estimate(
          results.map((r) => (100 * r.operatorBusyS) / operatorS(job)),
          confidence,
        )
      : null,
    overstays: overstays(compiled, results, confidence),
    periodS: periods.length === results.length ? estimate(periods, confidence) : null,
    deadlock: results.find((r) => r.deadlock !== null)?.deadlock ?? null,
    meanByReplication: meanGood(results, compiled),
  };
}

/** Operator seconds in the counted time. */
function operatorS(job: ReplicationJob): number {
  const counted = sum(job.shiftsS);
  if (job.openSpans === null) return counted * job.operators;
  const open = sum(job.openSpans.map((s) => s.endS - s.startS));
  const there = sum(job.openSpans.map((s) => (s.endS - s.startS) * (s.operators ?? (s.attended ? 1 : 0))));
  return (counted / open) * there;
}

type FoundLosses = Pick<SimulationResult, 'ceilingPerShift' | 'ceilingIsMaximum' | 'losses'>;

const NO_LOSSES: FoundLosses = { ceilingPerShift: null, ceilingIsMaximum: false, losses: [] };

const ROBOT_CAUSE = 'robot handling, travel and waiting';

/** Differences between runs with one cause more each, with the same random numbers. */
async function findLosses(
  job: ReplicationJob,
  compiled: CompiledCell,
  results: readonly ReplicationResult[],
  options: ResolvedOptions,
  context: SimulateContext,
): Promise<FoundLosses & { done: boolean }> {
  const run: ReplicationRunner = context.run ?? runHere;
  const numbers = results.map((r) => r.replication);
  const switches = [...robotSwitch(job), ...lossSwitches(job)];
  const losses: PairedLoss[] = [];
  let real = meanGood(results, compiled);
  let ceilingIsMaximum = false;
  for (const step of switches.reverse()) {
    const without = { ...step.without, causes: false };
    const better = await run(
      without,
      numbers,
      context.signal === undefined ? {} : { signal: context.signal },
    );
    if (better.length < numbers.length) return { ...NO_LOSSES, done: false };
    const means = meanGood(better, compiled);
    // A robot that takes no time and goes where it is called may make a worse mix than the sequence: that is no limit.
    if (step.cause === ROBOT_CAUSE && sum(means) < sum(real)) continue;
    ceilingIsMaximum = step.cause === ROBOT_CAUSE;
    const pairs = means.map((v, i) => v - real[i]!);
    losses.push({ cause: step.cause, ...pairedAmounts(pairs, options.confidence) });
    real = means;
  }
  return {
    ceilingPerShift: sum(real) / real.length,
    ceilingIsMaximum,
    losses: joinedGains(losses.reverse(), options.confidence),
    done: true,
  };
}

/** A loss with its pairs, so that two of them can be taken together. */
interface PairedLoss extends SimulatedLoss {
  readonly pairs: readonly number[];
}

function pairedAmounts(pairs: readonly number[], confidence: number): Omit<PairedLoss, 'cause'> {
  const { mean, ciLow, ciHigh } = estimate(pairs, confidence);
  return { partsPerShift: mean, mean, ciLow, ciHigh, pairs };
}

function joinedGains(losses: readonly PairedLoss[], confidence: number): SimulatedLoss[] {
  const joined = withoutGains(
    losses,
    (loss) => loss.mean,
    (a, b) =>
      pairedAmounts(
        a.pairs.map((v, i) => v + b.pairs[i]!),
        confidence,
      ),
  );
  return joined.map(({ pairs: _, ...loss }) => loss);
}

/** The first switch: machines that never wait for the robot. */
function robotSwitch(job: ReplicationJob): { cause: string; without: ReplicationJob }[] {
  const bare = lossSwitches(job)[0]?.without ?? job;
  if (!machinesSetAPace(job.cell)) return [];
  const without = { ...bare, program: 'first' as const, cell: withoutRobotTime(bare.cell) };
  return [{ cause: ROBOT_CAUSE, without }];
}

function warningsOf(summary: Summary, settled: boolean): string[] {
  const warnings: string[] = [];
  if (!settled)
    warnings.push('The pilot run had not settled when it ended; give a longer warm-up and compare.');
  if (summary.deadlock !== null) warnings.push(`The cell locks up. ${summary.deadlock}`);
  if (summary.partsPerShift.total!.mean === 0) warnings.push('No part was finished in the time simulated.');
  for (const o of summary.overstays)
    if (o.partsPerShift.mean > 0)
      warnings.push(
        `${o.part} waits longer than step ${o.step} allows: ${o.partsPerShift.mean.toFixed(2)} parts a shift.`,
      );
  if (summary.halfWidthReached === false)
    warnings.push('The precision asked for was not reached within the replications allowed.');
  return warnings;
}
