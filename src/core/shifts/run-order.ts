/**
 * Runs a repeating order forward in time, from the empty cell or from where it was left: every event starts as early
 * as the robot, the machines, the racks, the planned stops and the calendar let it (a max-plus recursion). With
 * longest waits in the order the robot also keeps at least the timetable's distances, so that no wait is overrun
 * while nothing disturbs it.
 *
 * Once the events repeat exactly, whole periods are jumped over up to the next moment at which something changes.
 */
import type { PlannedStop } from '../model/cell.js';
import type { CrewClock } from './crew-clock.js';
import type { OrderPlan } from './order-plan.js';
import { type DoneChangeover, emptyRunState, type RunState } from './run-state.js';
import type { WorkClock } from './work-clock.js';

/** What holds during a run. */
export interface RunConditions {
  readonly clock: WorkClock;
  /** Planned stops that are switched on. */
  readonly stops: readonly PlannedStop[];
  /** By station of the plan: parts that the rack holds; Infinity = no limit. */
  readonly racks: readonly number[];
  /** At the end of a working span: leave parts where they are, or take no new part that would not be out in time. */
  readonly atEnd: 'parts stay' | 'run out';
  /** Changeovers that come in this run; none when not given. */
  readonly changeovers?: RunChangeovers;
  /** Called for every event; switches jumping off. */
  readonly onEvent?: (event: RunEvent) => void;
}

/** Changeovers and the people who do them. */
export interface RunChangeovers {
  readonly crew: CrewClock;
  readonly rows: readonly {
    readonly station: string;
    /** Seconds in which people are at work, and of these the machine stands. */
    readonly workS: number;
    readonly standS: number;
    readonly people: number;
    /** Rising. */
    readonly dueS: readonly number[];
  }[];
}

export interface RunEvent {
  readonly index: number;
  readonly period: number;
  readonly startS: number;
  readonly endS: number;
}

/** A stretch in which the order stood because a rack was empty or full, or a stop waited for an operator. */
export interface Standstill {
  readonly cause: 'rack empty' | 'rack full' | 'waits for operator';
  readonly station: string;
  /** Name of the planned stop; empty for racks. */
  readonly stop: string;
  readonly fromS: number;
  /** Infinity when nobody ever comes. */
  readonly untilS: number;
}

export interface RunTally {
  /** By part of the plan: taken from infeeds, put out well, put out after a longest wait was overrun. */
  readonly taken: Float64Array;
  readonly out: Float64Array;
  readonly overrun: Float64Array;
  /** Parts put out (well or not) by shift of the calendar. */
  readonly outByShift: Float64Array;
  /** Robot handling, holding and travel, in open seconds. */
  busyS: number;
  readonly standstills: Standstill[];
}

export interface RunResult {
  readonly state: RunState;
  readonly tally: RunTally;
}

/** Standstills kept per run; more are counted in parts all the same. */
const MOST_STANDSTILLS = 500;
/** Longest eigen-period looked for when jumping, in periods of the order. */
const MOST_CYCLE = 6;
const SAME_S = 1e-7;

/**
 * @param plan the order made ready
 * @param conditions calendar, stops, racks
 * @param untilS run all events that end by then
 * @param shifts number of shifts in the calendar, for the tally by shift
 * @param from where to go on; default: the empty cell at time 0
 */
export function runOrder(
  plan: OrderPlan,
  conditions: RunConditions,
  untilS: number,
  shifts = 0,
  from: RunState = emptyRunState(plan, conditions.racks, conditions.stops.length),
): RunResult {
  const { clock, racks, stops } = conditions;
  const { events, depth } = plan;
  const n = events.length;
  const tally: RunTally = {
    taken: new Float64Array(plan.parts.length),
    out: new Float64Array(plan.parts.length),
    overrun: new Float64Array(plan.parts.length),
    outByShift: new Float64Array(shifts),
    busyS: 0,
    standstills: [],
  };
  let { next, period, last, nowS, lastStartS, inHand } = from;
  const endS = from.endS.slice();
  const spoiled = from.spoiled.slice();
  const leftOut = from.leftOut.slice();
  const feederEndS = from.feederEndS.slice();
  const stationEndS = from.stationEndS.slice();
  const content = from.content.slice();
  const rack = from.rack.slice();
  const rackSeenS = from.rackSeenS.slice();
  const stopCount = from.stopCount.slice();
  const stopDueS = from.stopDueS.slice();
  const turns = from.changeovers.slice();

  const stopsAt = plan.stations.map((name) => stops.flatMap((s, i) => (s.station === name ? [i] : [])));
  stops.forEach((stop, i) => {
    if (stop.everyH !== null && Number.isNaN(stopDueS[i]!))
      stopDueS[i] = clock.openEnd(nowS, stop.everyH * 3600);
  });
  /** Events that count parts for a station's stops: picks and holds, and places at an outfeed. */
  const counts = events.map((e, i) => e.action !== 'place' || plan.putsOut[i]!);
  const beforeEnd = events.map((e, i) => e.action === 'pick' && !plan.takesIn[i]);
  const perPeriod = countPerPeriod();
  const { crew, rows = [] } = conditions.changeovers ?? {};
  const rowsAt = plan.stations.map((name) => rows.flatMap((r, i) => (r.station === name ? [i] : [])));
  /** By row: changeovers begun, and the earliest start of the next one. */
  const turnsDone = rows.map((_, row) => turns.filter((t) => t.row === row).length);
  const turnFromS = rows.map((_, row) => earliestTurn(row));
  /** How long before a changeover a part that would still be in work then is no longer begun. */
  const heldBackS = rowsAt.map((_, station) =>
    Math.max(0, ...plan.changeoverS.filter((_, i) => plan.stationOf[i] === station)),
  );
  const emptiesFirst = conditions.atEnd === 'run out' && plan.canRunOut;
  const snapshots: Snapshot[] = [];
  let skippedInPeriod = period < plan.lifePeriods + depth;
  let doneInPeriod = 0;
  // Values of the event being worked out, handed from the look-ahead to the commit.
  let arrivalS = 0;
  let startS = 0;
  let finishS = 0;
  let overran = false;
  let disturbed = false;
  const due: number[] = [];
  const pending: Standstill[] = [];
  let turning: DoneChangeover | null = null;
  let rackLeft = 0;

  while (toExistingEvent()) {
    lookAhead();
    const end = startS + events[next]!.robotS;
    if (!(end <= untilS)) {
      // Nobody ever comes: the order stands for good, which a commit would never tell.
      if (end === Number.POSITIVE_INFINITY) tally.standstills.push(...pending);
      break;
    }
    commit(end);
    next++;
    if (next === n) wrap();
  }
  return {
    state: {
      next,
      period,
      last,
      nowS,
      lastStartS,
      inHand,
      endS,
      spoiled,
      leftOut,
      feederEndS,
      stationEndS,
      content,
      rack,
      rackSeenS,
      stopCount,
      stopDueS,
      changeovers: turns,
    },
    tally,
  };

  /** Moves on to the next event that exists; false when time runs out first. */
  function toExistingEvent(): boolean {
    while (!exists(next, period)) {
      skippedInPeriod = true;
      next++;
      if (next < n) continue;
      if (doneInPeriod === 0 && period >= plan.lifePeriods) {
        // Run out: nothing inside and nothing new before the end; the next working span begins anew.
        nowS = afterRunOut();
        if (!(nowS <= untilS)) {
          wrap();
          return false;
        }
      }
      wrap();
    }
    return true;
  }

  function exists(index: number, inPeriod: number): boolean {
    const instance = inPeriod - plan.firstPeriod[index]!;
    if (instance < 0) return false;
    if (conditions.atEnd === 'parts stay' || !plan.canRunOut) return true;
    const life = plan.lifeOf[index]!;
    const flag = life * plan.lifePeriods + (instance % plan.lifePeriods);
    if (plan.beginsLife[index]) leftOut[flag] = beginsTooLate(life) ? 1 : 0;
    return leftOut[flag] === 0;
  }

  function beginsTooLate(life: number): boolean {
    const fromS = clock.fitStart(nowS, 0);
    const outByS = Math.min(clock.spanEnd(fromS), ...turnFromS);
    return fromS + plan.lifeS[life]! > outByS + 1e-9;
  }

  /** The cell is empty: a changeover that it ran out for is made, else it waits for the next working span. */
  function afterRunOut(): number {
    const fromS = clock.fitStart(nowS, 0);
    const row = turnFromS.indexOf(Math.min(...turnFromS));
    const nothingDue = row === -1 || turnFromS[row] === Number.POSITIVE_INFINITY;
    if (nothingDue || turnFromS[row]! > clock.spanEnd(fromS)) return clock.fitStart(clock.spanEnd(nowS), 0);
    const startS = earliestTurn(row, fromS);
    turnFromS[row] = startS;
    if (startS > clock.spanEnd(fromS)) return fromS;
    const turn = turnOf(row, startS);
    settleTurn(turn);
    return turn.standsUntilS;
  }

  /** When people can begin the next changeover of a row, from a moment on; Infinity where none is left. */
  function earliestTurn(row: number, fromS = nextDue(row)): number {
    const dueS = nextDue(row);
    if (dueS === Number.POSITIVE_INFINITY) return dueS;
    return crew!.start(
      fromS,
      dueS,
      rows[row]!,
      turns.filter((t) => t.endS > fromS),
    );
  }

  function nextDue(row: number): number {
    return rows[row]!.dueS[turnsDone[row]!] ?? Number.POSITIVE_INFINITY;
  }

  function turnOf(row: number, startS: number): DoneChangeover {
    const { workS, standS, people } = rows[row]!;
    const standsUntilS = crew!.clock.operatorEnd(startS, standS);
    return { row, people, startS, standsUntilS, endS: crew!.clock.operatorEnd(startS, workS) };
  }

  function settleTurn(turn: DoneChangeover): void {
    turns.push(turn);
    turnsDone[turn.row]!++;
    rows.forEach((_, row) => {
      turnFromS[row] = Math.max(earliestTurn(row), row === turn.row ? 0 : turnFromS[row]!);
    });
  }

  /** Works out when the next event starts, changing nothing that a later call would need. */
  function lookAhead(): void {
    disturbed = false;
    // Setting a length is slow, and these are empty nearly always.
    if (due.length > 0) due.length = 0;
    if (pending.length > 0) pending.length = 0;
    turning = null;
    arrivalS = arrival();
    const ready = readyTime();
    startS = Math.max(arrivalS, ready);
    if (stopsAt[plan.stationOf[next]!]!.length > 0 && counts[next]) waitForStops();
    if (!emptiesFirst && plan.changeoverS[next]! >= 0) waitForChangeover();
    startS = clock.fitStart(startS, events[next]!.robotS);
    if (
      (plan.takesIn[next] || plan.putsOut[next]) &&
      racks[plan.stationOf[next]!]! < Number.POSITIVE_INFINITY
    )
      waitForRack();
    overran = plan.hasLongestWaits && plan.links[next]!.length > 0 && startS > finishS + longestWait() + 1e-6;
  }

  function arrival(): number {
    if (last === -1) return nowS;
    const before = events[last]!;
    const event = events[next]!;
    if (before.station === event.station) {
      const turnS = straightOn() ? before.toNextS : plan.hands === 2 ? plan.indexS : 0;
      return turnS === 0 ? nowS : clock.openEnd(nowS, turnS);
    }
    const workS = wayTime();
    return workS === 0 ? nowS : clock.travelEnd(nowS, workS);
  }

  /** The next event is also the next of the order, with as full a hand as the schedule had. */
  function straightOn(): boolean {
    return (last + 1) % n === next;
  }

  function wayTime(): number {
    const before = events[last]!;
    const loaded = inHand > 0;
    if (straightOn() && loaded === before.loadedToNext) return before.toNextS;
    const straight = plan.wayS(last, next, loaded);
    if (straight !== null) return straight;
    // No input gives the straight way: the robot goes past the skipped stations.
    let pastS = 0;
    for (let i = last; i !== next; i = (i + 1) % n) pastS += events[i]!.toNextS;
    return pastS;
  }

  /** When the machines, the feeder and the timetable allow the next event. */
  function readyTime(): number {
    let ready = Number.NEGATIVE_INFINITY;
    for (const link of plan.links[next]!) {
      const t = endS[link.lag * n + link.place]! + link.processS;
      if (t > ready) ready = t;
    }
    finishS = ready;
    const feeder = plan.feederOf[next]!;
    if (feeder >= 0) ready = Math.max(ready, feederEndS[feeder]! + plan.feederS[next]!);
    if (plan.gapS !== null) ready = Math.max(ready, lastStartS + timetableGap());
    return ready;
  }

  function timetableGap(): number {
    const gaps = clock.segmentAt(nowS).slow ? (plan.slowGapS ?? plan.gapS!) : plan.gapS!;
    if (last === -1) return 0;
    let sum = 0;
    let i = last;
    do {
      i = (i + 1) % n;
      sum += gaps[i]!;
    } while (i !== next);
    return sum;
  }

  function longestWait(): number {
    return plan.links[next]!.reduce((least, l) => Math.min(least, l.maxWaitS), Number.POSITIVE_INFINITY);
  }

  /** Planned stops due before this event: each begins when the station is done, and the event waits for its end. */
  function waitForStops(): void {
    const station = plan.stationOf[next]!;
    let freeS = Math.max(stationEndS[station]!, beforeEnd[next] ? finishS : Number.NEGATIVE_INFINITY);
    for (const s of stopsAt[station]!) {
      const stop = stops[s]!;
      const threshold = beforeEnd[next] ? (stop.everyParts ?? 0) - 1 : stop.everyParts!;
      if (stop.everyParts !== null ? stopCount[s]! < threshold : !(startS >= stopDueS[s]!)) continue;
      const dueS = Math.max(freeS, stop.everyParts !== null ? Number.NEGATIVE_INFINITY : stopDueS[s]!, 0);
      const workS = stop.minutes * 60;
      const doneS = stop.operator ? clock.operatorEnd(dueS, workS) : dueS + workS;
      if (stop.operator && doneS > Math.max(startS, dueS + workS) + 1)
        pending.push({
          cause: 'waits for operator',
          station: stop.station,
          stop: stop.name,
          fromS: dueS,
          untilS: doneS,
        });
      startS = Math.max(startS, doneS);
      freeS = Math.max(freeS, doneS);
      due.push(s, doneS);
      disturbed = true;
    }
  }

  /**
   * A changeover that falls due before the next part would be done: it begins when the station is empty and people can
   * begin. Where they come later than that, the machine goes on until then.
   */
  function waitForChangeover(): void {
    const station = plan.stationOf[next]!;
    const latestS = startS + plan.changeoverS[next]!;
    for (const row of rowsAt[station]!) {
      if (turnFromS[row]! > latestS) continue;
      const stopsOverS = due.filter((_, i) => i % 2 === 1);
      const soonestS = turnFromS[row]! - plan.changeoverS[next]!;
      const fromS = earliestTurn(row, Math.max(soonestS, stationEndS[station]!, ...stopsOverS));
      if (fromS > latestS) {
        turnFromS[row] = fromS;
        continue;
      }
      turning = turnOf(row, fromS);
      startS = Math.max(startS, turning.standsUntilS);
      disturbed = true;
    }
  }

  /** Racks are kept full (outfeeds empty) while the operator is there, and run down while not. */
  function waitForRack(): void {
    const station = plan.stationOf[next]!;
    const { robotS } = events[next]!;
    rackLeft = rack[station]!;
    if (clock.operatorEnd(rackSeenS[station]!, 0) <= startS) rackLeft = racks[station]!;
    if (rackLeft >= 1) return;
    const fromS = startS;
    startS = clock.fitStart(clock.operatorEnd(startS, 0), robotS);
    rackLeft = racks[station]!;
    disturbed = true;
    const cause = plan.takesIn[next] ? 'rack empty' : 'rack full';
    pending.push({ cause, station: plan.stations[station]!, stop: '', fromS, untilS: startS });
  }

  function commit(end: number): void {
    const event = events[next]!;
    const station = plan.stationOf[next]!;
    const part = plan.partOf[next]!;
    if (clock.spanEnd(nowS) < startS) disturbed = true;
    tally.busyS += event.robotS + (arrivalS > nowS ? clock.openBetween(nowS, arrivalS) : 0);
    settleStops();
    if (turning !== null) settleTurn(turning);
    settleRack(station, end);
    settleSpoiled();
    for (const p of pending) if (tally.standstills.length < MOST_STANDSTILLS) tally.standstills.push(p);
    if (event.action === 'pick') inHand++;
    if (event.action === 'place') inHand--;
    if (event.action === 'pick' && !plan.takesIn[next]) content[station]!--;
    if (event.action === 'place' && !plan.putsOut[next]) content[station]!++;
    if (plan.takesIn[next]) tally.taken[part]!++;
    if (plan.putsOut[next]) countOut(part, end, spoiled[next] === 1, 1);
    endS[next] = end;
    stationEndS[station] = end;
    if (plan.feederOf[next]! >= 0) feederEndS[plan.feederOf[next]!] = end;
    conditions.onEvent?.({ index: next, period, startS, endS: end });
    lastStartS = startS;
    nowS = end;
    last = next;
    doneInPeriod++;
    if (disturbed && snapshots.length > 0) snapshots.length = 0;
  }

  function settleStops(): void {
    const station = plan.stationOf[next]!;
    if (!counts[next]) return;
    for (const s of stopsAt[station]!) if (stops[s]!.everyParts !== null) stopCount[s]!++;
    for (let i = 0; i < due.length; i += 2) {
      const s = due[i]!;
      const { everyParts, everyH } = stops[s]!;
      if (everyParts !== null) stopCount[s] = beforeEnd[next] ? 0 : 1;
      else stopDueS[s] = clock.openEnd(due[i + 1]!, everyH! * 3600);
    }
  }

  function settleRack(station: number, end: number): void {
    if (!(plan.takesIn[next] || plan.putsOut[next]) || racks[station] === Number.POSITIVE_INFINITY) return;
    rack[station] = rackLeft - 1;
    rackSeenS[station] = end;
  }

  /** Carries the mark of an overrun wait along with the part. */
  function settleSpoiled(): void {
    if (!plan.hasLongestWaits) return;
    const event = events[next]!;
    if (event.action === 'pick')
      spoiled[next] = overran || plan.links[next]!.some((l) => spoiled[l.lag * n + l.place] === 1) ? 1 : 0;
    else spoiled[next] = spoiled[event.pickLag * n + event.pickIndex]!;
  }

  function countOut(part: number, atS: number, bad: boolean, times: number): void {
    (bad ? tally.overrun : tally.out)[part]! += times;
    const { shift } = clock.segmentAt(Math.max(0, atS - 1e-6));
    if (shift >= 0 && shift < shifts) tally.outByShift[shift]! += times;
  }

  /** Begins the next period; jumps where the last ones repeated. */
  function wrap(): void {
    next = 0;
    period++;
    if (depth > 0) {
      endS.copyWithin(n, 0, n * depth);
      spoiled.copyWithin(n, 0, n * depth);
    }
    if (skippedInPeriod) snapshots.length = 0;
    else if (conditions.onEvent === undefined) tryJump();
    skippedInPeriod = false;
    doneInPeriod = 0;
  }

  function tryJump(): void {
    const segment = clock.segmentAt(nowS);
    if (snapshots.length > 0 && snapshots[0]!.segmentEndS !== segment.endS) snapshots.length = 0;
    for (let c = 1; c <= snapshots.length; c++) {
      const before = snapshots[snapshots.length - c]!;
      if (!repeats(before)) continue;
      jump(before, c, segment.endS, segment.operator);
      snapshots.length = 0;
      break;
    }
    snapshots.push({
      nowS,
      lastStartS,
      endS: endS.slice(n),
      feederEndS: feederEndS.slice(),
      busyS: tally.busyS,
      segmentEndS: segment.endS,
    });
    if (snapshots.length > MOST_CYCLE) snapshots.shift();
  }

  /** The state of `before` and of now differ only by a shift in time. */
  function repeats(before: Snapshot): boolean {
    const shift = nowS - before.nowS;
    if (!(shift > 0)) return false;
    if (plan.hasLongestWaits && spoiled.some((s) => s === 1)) return false;
    const near = (now: number, then: number): boolean => Math.abs(now - then - shift) <= SAME_S;
    if (!near(lastStartS, before.lastStartS)) return false;
    for (let i = 0; i < before.endS.length; i++) if (!near(endS[n + i]!, before.endS[i]!)) return false;
    for (let i = 0; i < feederEndS.length; i++)
      if (!near(feederEndS[i]!, before.feederEndS[i]!)) return false;
    return true;
  }

  /** Skips as many repetitions as surely fit before anything changes. */
  function jump(before: Snapshot, cycle: number, segmentEndS: number, operator: boolean): void {
    const lengthS = nowS - before.nowS;
    let limitS = Math.min(segmentEndS, untilS);
    if (conditions.atEnd === 'run out')
      limitS = Math.min(limitS, Math.min(clock.spanEnd(nowS), ...turnFromS) - Math.max(...plan.lifeS));
    rows.forEach(({ station }, row) => {
      limitS = Math.min(limitS, turnFromS[row]! - heldBackS[plan.stations.indexOf(station)]!);
    });
    for (const d of stopDueS) if (!Number.isNaN(d)) limitS = Math.min(limitS, d);
    let times = Math.floor((limitS - nowS) / lengthS) - 1;
    stops.forEach((stop, s) => {
      const each = perPeriod.stop[s]! * cycle;
      if (stop.everyParts !== null && each > 0)
        times = Math.min(times, Math.floor((stop.everyParts - stopCount[s]!) / each) - 1);
    });
    if (!operator)
      perPeriod.rack.forEach((each, station) => {
        if (each > 0 && racks[station]! < Number.POSITIVE_INFINITY)
          times = Math.min(times, Math.floor(rack[station]! / (each * cycle)) - 1);
      });
    if (times < 1) return;
    applyJump(times * cycle, times * lengthS, (tally.busyS - before.busyS) * times);
  }

  function applyJump(periods: number, byS: number, busyS: number): void {
    const halfwayS = nowS + byS / 2;
    period += periods;
    tally.busyS += busyS;
    events.forEach((_, i) => {
      if (plan.takesIn[i]) tally.taken[plan.partOf[i]!]! += periods;
      if (plan.putsOut[i]) countOut(plan.partOf[i]!, halfwayS, false, periods);
    });
    stops.forEach((stop, s) => {
      if (stop.everyParts !== null) stopCount[s]! += perPeriod.stop[s]! * periods;
    });
    const present = clock.segmentAt(halfwayS).operator;
    perPeriod.rack.forEach((each, station) => {
      if (each === 0 || racks[station] === Number.POSITIVE_INFINITY) return;
      rack[station] = present ? racks[station]! - 1 : rack[station]! - each * periods;
      rackSeenS[station]! += byS;
    });
    nowS += byS;
    lastStartS += byS;
    for (const times of [endS, feederEndS, stationEndS])
      for (let i = 0; i < times.length; i++) times[i]! += byS;
  }

  function countPerPeriod(): { readonly stop: number[]; readonly rack: number[] } {
    const at = (of: (i: number) => boolean, station: number): number =>
      events.reduce((sum, _, i) => sum + (of(i) && plan.stationOf[i] === station ? 1 : 0), 0);
    return {
      stop: stops.map((s) => at((i) => counts[i]!, plan.stations.indexOf(s.station))),
      rack: plan.stations.map((_, s) => at((i) => plan.takesIn[i]! || plan.putsOut[i]!, s)),
    };
  }
}

interface Snapshot {
  readonly nowS: number;
  readonly lastStartS: number;
  readonly endS: Float64Array;
  readonly feederEndS: Float64Array;
  readonly busyS: number;
  readonly segmentEndS: number;
}
