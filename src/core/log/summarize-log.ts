/** What an analysis has measured, as a result. */
import { meanInterval } from '../statistics/mean-interval.js';
import type { LogAnalysis } from './log-analysis.js';
import { type LogClock, momentText } from './log-clock.js';
import type {
  LogGap,
  LogResult,
  PartTimes,
  RobotLog,
  ShiftLog,
  ShiftMean,
  StationLog,
  StationShares,
  StationTimes,
} from './log-result.js';
import { logAssumptions, logWarnings } from './log-warnings.js';
import type { Measure, MeasureSummary } from './measure.js';
import type { PartCount } from './part-count.js';
import type { StationTrack } from './station-track.js';
import { stopRate } from './stop-rate.js';

/** Gaps told one by one. */
const MOST_GAPS = 20;
/** How much of a whole shift may lie before the first or after the last record, seconds. */
const SHIFT_MARGIN_S = 900;

/** @param log ended; with at least one record */
export function summarizeLog(log: LogAnalysis, clock: LogClock): LogResult {
  const covered = coveredSpans(log);
  const coveredS = covered.reduce((sum, s) => sum + s.endS - s.startS, 0);
  const { count, by } = partCount(log);
  const shifts = shiftLogs(log, covered, count);
  const result = {
    records: log.records,
    used: log.used,
    clock: clock.form,
    resolutionS: clock.resolutionS,
    first: momentText(clock, log.line.firstS),
    last: momentText(clock, log.line.lastS),
    coveredH: coveredS / 3600,
    confidencePct: 100 * log.options.confidence,
    damage: log.damage.entries(),
    gaps: gapsOf(log, clock),
    partsCountedBy: by,
    ...partFigures(log, count, coveredS),
    partsPerHInterval: rateInterval(log, count),
    stations: log.stations.list.flatMap((_, i) => (log.tracks[i] ? [stationLog(log, i, coveredS)] : [])),
    robot: robotLog(log, coveredS),
    shifts,
    shiftMeans: shiftMeans(shifts, log.options.confidence),
    partsOutsideShifts: count?.outside ?? 0,
  };
  return { ...result, assumptions: logAssumptions(log, result), warnings: logWarnings(result) };
}

interface Span {
  readonly startS: number;
  readonly endS: number;
}

/** Stretches of the log without a break, by its own clock. */
function coveredSpans({ line, breaks }: LogAnalysis): Span[] {
  const starts = [line.firstS, ...breaks.map((b) => b.toS)];
  const ends = [...breaks.map((b) => b.fromS), line.lastS];
  return starts.map((startS, i) => ({ startS, endS: Math.max(startS, ends[i]!) }));
}

function partCount(log: LogAnalysis): { count: PartCount | null; by: LogResult['partsCountedBy'] } {
  if (log.placed.total > 0) return { count: log.placed, by: 'placed' };
  if (log.finished.total > 0) return { count: log.finished, by: 'finish' };
  return { count: null, by: log.facts.stations.size === 0 && sinks(log).length > 0 ? 'placed' : 'nothing' };
}

/** Without a cell: stations to which parts go and from which none leave. */
function sinks({ tracks }: LogAnalysis): StationTrack[] {
  const isSink = (t: StationTrack): boolean =>
    t.placed.size > 0 && t.unload.all.n === 0 && t.finishes.size === 0;
  return tracks.flatMap((t) => (t !== undefined && isSink(t) ? [t] : []));
}

function partFigures(
  log: LogAnalysis,
  count: PartCount | null,
  coveredS: number,
): Pick<LogResult, 'parts' | 'partsPerH'> {
  const byPart = new Map<number, number>(count?.byPart);
  if (count === null)
    for (const sink of sinks(log))
      for (const [part, n] of sink.placed) byPart.set(part, (byPart.get(part) ?? 0) + n);
  const named = [...byPart]
    .filter(([part]) => part >= 0)
    .map(([part, n]) => [log.parts.list[part]!, n] as const);
  const total = [...byPart.values()].reduce((sum, n) => sum + n, 0);
  const parts = { ...Object.fromEntries(named), total };
  const perH = (n: number): number => (coveredS > 0 ? (3600 * n) / coveredS : 0);
  return { parts, partsPerH: Object.fromEntries(Object.entries(parts).map(([name, n]) => [name, perH(n)])) };
}

function rateInterval({ options }: LogAnalysis, count: PartCount | null): LogResult['partsPerHInterval'] {
  const between = count?.interval.summary(options.confidence) ?? null;
  if (between === null || between.ciLow === null || !(between.ciLow > 0)) return null;
  return { ciLow: 3600 / between.ciHigh!, ciHigh: 3600 / between.ciLow };
}

function gapsOf({ breaks }: LogAnalysis, clock: LogClock): LogGap[] {
  return breaks.slice(0, MOST_GAPS).map(({ kind, fromS, toS, line }) => ({
    kind,
    line,
    from: momentText(clock, fromS),
    to: momentText(clock, toS),
    seconds: Math.abs(toS - fromS),
  }));
}

// ---- stations -----------------------------------------------------------------------------------------------------

function stationLog(log: LogAnalysis, index: number, coveredS: number): StationLog {
  const track = log.tracks[index]!;
  const station = log.stations.list[index]!;
  const facts = log.facts.stations.get(station);
  const { confidence } = log.options;
  const finishes = sum(track.finishes.values());
  return {
    station,
    kind: facts?.kind ?? null,
    records: sum(track.seen),
    finishes,
    finishesPerH: coveredS > 0 ? (3600 * finishes) / coveredS : 0,
    placed: sum(track.placed.values()),
    times: stationTimes(track, confidence),
    byPart: partTimes(log, track),
    stopRate: track.processingS > 0 ? stopRate(track.stopsInCycles, track.processingS, confidence) : null,
    shares: stationShares(track, facts?.capacity ?? 1, coveredS),
  };
}

function stationTimes(track: StationTrack, confidence: number): StationTimes {
  const of = (measure: Measure): MeasureSummary | null => measure.summary(confidence);
  return {
    cycle: of(track.cycle.all),
    interval: of(track.interval),
    waitRobot: of(track.wait),
    load: of(track.load.all),
    unload: of(track.unload.all),
    ready: of(track.ready),
    close: of(track.close),
    stop: of(track.stop),
    pause: of(track.pause),
    repair: of(track.repair),
    response: of(track.response),
  };
}

function partTimes({ parts, options }: LogAnalysis, track: StationTrack): PartTimes[] {
  const numbers = new Set([track.cycle, track.load, track.unload].flatMap((t) => [...t.byPart.keys()]));
  return [...numbers].map((part) => {
    const of = (measure: Measure | undefined): MeasureSummary | null =>
      measure?.summary(options.confidence) ?? null;
    return {
      part: parts.list[part]!,
      cycle: of(track.cycle.byPart.get(part)),
      load: of(track.load.byPart.get(part)),
      unload: of(track.unload.byPart.get(part)),
    };
  });
}

function stationShares(track: StationTrack, capacity: number, coveredS: number): StationShares | null {
  if (!Number.isFinite(capacity)) return null;
  const known = {
    processingS: track.cycle.all.total,
    stoppedS: track.stop.total,
    pausedS: track.pause.total,
    waitRobotS: track.wait.total,
    handlingS: track.load.all.total + track.unload.all.total + track.ready.total + track.close.total,
  };
  return { ...known, restS: Math.max(0, capacity * coveredS - sum(Object.values(known))) };
}

// ---- robot --------------------------------------------------------------------------------------------------------

function robotLog(log: LogAnalysis, coveredS: number): RobotLog | null {
  const { robot, tracks, facts, stations, options } = log;
  const known = [...tracks.entries()].flatMap(([i, track]) => (track ? [{ i, track }] : []));
  const handled = sum(known.map(({ track: t }) => t.load.all.total + t.unload.all.total));
  const handlingS = handled + robot.index.total;
  const hasWays = robot.emptyS.n + robot.loadedS.n > 0;
  if (handlingS === 0 && !hasWays) return null;
  const isHeld = (i: number): boolean => facts.stations.get(stations.list[i]!)?.kind === 'held';
  const heldS = sum(known.map(({ i, track }) => (isHeld(i) ? track.cycle.all.total : 0)));
  const busyS = handlingS + heldS + robot.emptyS.total + robot.loadedS.total;
  return {
    handlingS,
    index: robot.index.summary(options.confidence),
    heldS,
    travelEmptyS: hasWays ? robot.emptyS.total : null,
    travelLoadedS: hasWays ? robot.loadedS.total : null,
    waitS: Math.max(0, coveredS - busyS),
    busyPct: coveredS > 0 ? Math.min(100, (100 * busyS) / coveredS) : 0,
    ways: [...robot.ways.values()].map(({ from, to, loaded, attended, times }) => ({
      from: stations.list[from]!,
      to: stations.list[to]!,
      loaded,
      attended: log.slowAttended ? attended : null,
      times: times.summary(options.confidence)!,
    })),
  };
}

// ---- shifts -------------------------------------------------------------------------------------------------------

function shiftLogs(log: LogAnalysis, covered: readonly Span[], count: PartCount | null): ShiftLog[] {
  const { turns, baseS, line } = log;
  if (turns === null || count === null) return [];
  const [firstS, lastS] = [baseS + line.firstS, baseS + line.lastS];
  const parts = new Map([...count.byTurn].map(([turn, n]) => [`${turn.date} ${turn.shift}`, n]));
  return turns.between(firstS, lastS).map((turn) => {
    const lengthS = turn.endS - turn.startS;
    const inside = sum(covered.map((c) => overlapS(c, turn.startS - baseS, turn.endS - baseS)));
    return {
      shift: turn.shift,
      date: turn.date,
      hours: lengthS / 3600,
      coveredPct: (100 * inside) / lengthS,
      isWhole: turn.startS >= firstS - SHIFT_MARGIN_S && turn.endS <= lastS + SHIFT_MARGIN_S,
      parts: parts.get(`${turn.date} ${turn.shift}`) ?? 0,
    };
  });
}

function overlapS(span: Span, startS: number, endS: number): number {
  return Math.max(0, Math.min(span.endS, endS) - Math.max(span.startS, startS));
}

/** By the shift's name, over whole shifts. */
function shiftMeans(shifts: readonly ShiftLog[], confidence: number): ShiftMean[] {
  const whole = shifts.filter((s) => s.isWhole);
  return [...new Set(whole.map((s) => s.shift))].map((shift) => {
    const own = whole.filter((s) => s.shift === shift);
    const { mean, ciLow, ciHigh, n } = meanInterval(
      own.map((s) => s.parts),
      confidence,
    );
    const bounds = n < 2 ? { ciLow: null, ciHigh: null } : { ciLow, ciHigh };
    return { shift, n, hours: sum(own.map((s) => s.hours)) / n, mean, ...bounds };
  });
}

function sum(values: Iterable<number>): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
