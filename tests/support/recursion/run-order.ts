/**
 * Runs a repeating order forward in time, from the empty cell or from where it was left: every event starts as early
 * as the robot, the machines, the racks, the planned stops and the calendar let it (a max-plus recursion). With
 * longest waits in the order the robot also keeps at least the timetable's distances, so that no wait is overrun
 * while nothing disturbs it.
 *
 * Once the events repeat exactly, whole periods are jumped over up to the next moment at which something changes.
 */

import type { CrewClock } from '../../../src/core/floor/crew-clock.js';
import type { ClockSegment, WorkClock } from '../../../src/core/floor/work-clock.js';
import type { PlannedStop } from '../../../src/core/model/cell.js';
import type { OrderPlan } from './order-plan.js';
import { type DoneChangeover, emptyRunState, type RunState } from './run-state.js';

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
  return new OrderRun(plan, conditions, untilS, shifts, from).run();
}

/** One run: its state lies in fields, and its methods are made once for all runs, which keeps both fast. */
class OrderRun {
  private readonly clock: WorkClock;
  private readonly racks: readonly number[];
  private readonly stops: readonly PlannedStop[];
  private readonly n: number;
  private readonly depth: number;
  private readonly tally: RunTally;
  private next: number;
  private period: number;
  private last: number;
  private nowS: number;
  private lastStartS: number;
  private inHand: number;
  private readonly endS: Float64Array;
  private readonly spoiled: Uint8Array;
  private readonly leftOut: Uint8Array;
  private readonly feederEndS: Float64Array;
  private readonly stationEndS: Float64Array;
  private readonly content: Int32Array;
  private readonly rack: Float64Array;
  private readonly rackSeenS: Float64Array;
  private readonly stopCount: Float64Array;
  private readonly stopDueS: Float64Array;
  private readonly turns: DoneChangeover[];
  private readonly stopsAt: readonly (readonly number[])[];
  /** Events that count parts for a station's stops: picks and holds, and places at an outfeed. */
  private readonly counts: readonly boolean[];
  private readonly beforeEnd: readonly boolean[];
  /** Events that take from a rack, or put into one, of a stated size. */
  private readonly takesRack: readonly boolean[];
  private readonly perPeriod: { readonly stop: readonly number[]; readonly rack: readonly number[] };
  private readonly crew: CrewClock | null;
  private readonly rows: RunChangeovers['rows'];
  private readonly rowsAt: readonly (readonly number[])[];
  /** By row: changeovers begun, and the earliest start of the next one. */
  private readonly turnsDone: number[];
  private readonly turnFromS: number[];
  /** How long before a changeover a part that would still be in work then is no longer begun. */
  private readonly heldBackS: readonly number[];
  private readonly emptiesFirst: boolean;
  private readonly snapshots: Snapshot[] = [];
  private skippedInPeriod: boolean;
  private doneInPeriod = 0;
  /** The segment looked at last, from when on that is known, and the end of its open span (-Infinity where closed). */
  private here: ClockSegment;
  private hereFromS = Number.POSITIVE_INFINITY;
  private spanEndS = Number.NEGATIVE_INFINITY;
  // Values of the event being worked out, handed from the look-ahead to the commit.
  private arrivalS = Number.NaN;
  private startS = Number.NaN;
  private finishS = Number.NaN;
  private overran = false;
  private disturbed = false;
  private readonly due: number[] = [];
  private readonly pending: Standstill[] = [];
  private turning: DoneChangeover | null = null;
  private rackLeft = Number.NaN;

  constructor(
    private readonly plan: OrderPlan,
    private readonly conditions: RunConditions,
    private readonly untilS: number,
    private readonly shifts: number,
    from: RunState,
  ) {
    const { clock, racks, stops } = conditions;
    const { events, depth } = plan;
    this.clock = clock;
    this.racks = racks;
    this.stops = stops;
    this.n = events.length;
    this.depth = depth;
    this.tally = {
      taken: new Float64Array(plan.parts.length),
      out: new Float64Array(plan.parts.length),
      overrun: new Float64Array(plan.parts.length),
      outByShift: new Float64Array(shifts),
      busyS: 0,
      standstills: [],
    };
    this.next = from.next;
    this.period = from.period;
    this.last = from.last;
    this.nowS = from.nowS;
    this.lastStartS = from.lastStartS;
    this.inHand = from.inHand;
    this.endS = from.endS.slice();
    this.spoiled = from.spoiled.slice();
    this.leftOut = from.leftOut.slice();
    this.feederEndS = from.feederEndS.slice();
    this.stationEndS = from.stationEndS.slice();
    this.content = from.content.slice();
    this.rack = from.rack.slice();
    this.rackSeenS = from.rackSeenS.slice();
    this.stopCount = from.stopCount.slice();
    this.stopDueS = from.stopDueS.slice();
    this.turns = from.changeovers.slice();
    this.stopsAt = plan.stations.map((name) => stops.flatMap((s, i) => (s.station === name ? [i] : [])));
    stops.forEach((stop, i) => {
      if (stop.everyH !== null && Number.isNaN(this.stopDueS[i]!))
        this.stopDueS[i] = clock.openEnd(from.nowS, stop.everyH * 3600);
    });
    this.counts = events.map((e, i) => e.action !== 'place' || plan.putsOut[i]!);
    this.beforeEnd = events.map((e, i) => e.action === 'pick' && !plan.takesIn[i]);
    this.takesRack = events.map(
      (_, i) =>
        (plan.takesIn[i]! || plan.putsOut[i]!) && racks[plan.stationOf[i]!]! < Number.POSITIVE_INFINITY,
    );
    this.perPeriod = countPerPeriod(plan, stops, this.counts);
    const { crew = null, rows = [] } = conditions.changeovers ?? {};
    this.crew = crew;
    this.rows = rows;
    this.rowsAt = plan.stations.map((name) => rows.flatMap((r, i) => (r.station === name ? [i] : [])));
    this.turnsDone = rows.map((_, row) => this.turns.filter((t) => t.row === row).length);
    this.turnFromS = rows.map((_, row) => this.earliestTurn(row));
    this.heldBackS = this.rowsAt.map((_, station) =>
      Math.max(0, ...plan.changeoverS.filter((_, i) => plan.stationOf[i] === station)),
    );
    this.emptiesFirst = conditions.atEnd === 'run out' && plan.canRunOut;
    this.skippedInPeriod = from.period < plan.lifePeriods + depth;
    this.here = clock.segmentAt(from.nowS);
  }

  run(): RunResult {
    while (this.toExistingEvent()) {
      this.lookAhead();
      const end = this.startS + this.plan.events[this.next]!.robotS;
      if (!(end <= this.untilS)) {
        // Nobody ever comes: the order stands for good, which a commit would never tell.
        if (end === Number.POSITIVE_INFINITY) this.tally.standstills.push(...this.pending);
        break;
      }
      this.commit(end);
      this.next++;
      if (this.next === this.n) this.wrap();
    }
    return { state: this.state(), tally: this.tally };
  }

  private state(): RunState {
    const { next, period, last, nowS, lastStartS, inHand, endS, spoiled, leftOut, feederEndS } = this;
    const { stationEndS, content, rack, rackSeenS, stopCount, stopDueS, turns } = this;
    return {
      ...{ next, period, last, nowS, lastStartS, inHand, endS, spoiled, leftOut, feederEndS },
      ...{ stationEndS, content, rack, rackSeenS, stopCount, stopDueS, changeovers: turns },
    };
  }

  /** Moves on to the next event that exists; false when time runs out first. */
  private toExistingEvent(): boolean {
    while (!this.exists(this.next, this.period)) {
      this.skippedInPeriod = true;
      this.next++;
      if (this.next < this.n) continue;
      if (this.doneInPeriod === 0 && this.period >= this.plan.lifePeriods) {
        // Run out: nothing inside and nothing new before the end; the next working span begins anew.
        this.nowS = this.afterRunOut();
        if (!(this.nowS <= this.untilS)) {
          this.wrap();
          return false;
        }
      }
      this.wrap();
    }
    return true;
  }

  private exists(index: number, inPeriod: number): boolean {
    const instance = inPeriod - this.plan.firstPeriod[index]!;
    if (instance < 0) return false;
    if (this.conditions.atEnd === 'parts stay' || !this.plan.canRunOut) return true;
    const life = this.plan.lifeOf[index]!;
    const flag = life * this.plan.lifePeriods + (instance % this.plan.lifePeriods);
    if (this.plan.beginsLife[index]) this.leftOut[flag] = this.beginsTooLate(life) ? 1 : 0;
    return this.leftOut[flag] === 0;
  }

  private beginsTooLate(life: number): boolean {
    const fromS = this.clock.fitStart(this.nowS, 0);
    const outByS = Math.min(this.clock.spanEnd(fromS), ...this.turnFromS);
    return fromS + this.plan.lifeS[life]! > outByS + 1e-9;
  }

  /** The cell is empty: a changeover that it ran out for is made, else it waits for the next working span. */
  private afterRunOut(): number {
    const fromS = this.clock.fitStart(this.nowS, 0);
    const row = this.turnFromS.indexOf(Math.min(...this.turnFromS));
    const nothingDue = row === -1 || this.turnFromS[row] === Number.POSITIVE_INFINITY;
    if (nothingDue || this.turnFromS[row]! > this.clock.spanEnd(fromS))
      return this.clock.fitStart(this.clock.spanEnd(this.nowS), 0);
    const startS = this.earliestTurn(row, fromS);
    this.turnFromS[row] = startS;
    if (startS > this.clock.spanEnd(fromS)) return fromS;
    const turn = this.turnOf(row, startS);
    this.settleTurn(turn);
    return turn.standsUntilS;
  }

  /** When people can begin the next changeover of a row, from a moment on; Infinity where none is left. */
  private earliestTurn(row: number, fromS = this.nextDue(row)): number {
    const dueS = this.nextDue(row);
    if (dueS === Number.POSITIVE_INFINITY) return dueS;
    return this.crew!.start(
      fromS,
      dueS,
      this.rows[row]!,
      this.turns.filter((t) => t.endS > fromS),
    );
  }

  private nextDue(row: number): number {
    return this.rows[row]!.dueS[this.turnsDone[row]!] ?? Number.POSITIVE_INFINITY;
  }

  private turnOf(row: number, startS: number): DoneChangeover {
    const { workS, standS, people } = this.rows[row]!;
    const standsUntilS = this.crew!.clock.operatorEnd(startS, standS);
    return { row, people, startS, standsUntilS, endS: this.crew!.clock.operatorEnd(startS, workS) };
  }

  private settleTurn(turn: DoneChangeover): void {
    this.turns.push(turn);
    this.turnsDone[turn.row]!++;
    this.rows.forEach((_, row) => {
      this.turnFromS[row] = Math.max(this.earliestTurn(row), row === turn.row ? 0 : this.turnFromS[row]!);
    });
  }

  /** Works out when the next event starts, changing nothing that a later call would need. */
  private lookAhead(): void {
    const { plan, next } = this;
    const station = plan.stationOf[next]!;
    const { robotS } = plan.events[next]!;
    this.disturbed = false;
    // Setting a length is slow, and these are empty nearly always.
    if (this.due.length > 0) this.due.length = 0;
    if (this.pending.length > 0) this.pending.length = 0;
    this.turning = null;
    this.look();
    this.arrivalS = this.arrival();
    this.startS = Math.max(this.arrivalS, this.readyTime());
    if (this.stopsAt[station]!.length > 0 && this.counts[next]) this.waitForStops();
    if (!this.emptiesFirst && plan.changeoverS[next]! >= 0) this.waitForChangeover();
    if (!(this.startS < this.spanEndS && this.startS + robotS <= this.spanEndS))
      this.startS = this.clock.fitStart(this.startS, robotS);
    if (this.takesRack[next]) this.waitForRack();
    this.overran =
      plan.hasLongestWaits &&
      plan.links[next]!.length > 0 &&
      this.startS > this.finishS + this.longestWait() + 1e-6;
  }

  /**
   * Finds what holds at the moment the robot is free, unless that moment lies in the segment looked at last: until its
   * end, and for what is asked of open time until the end of the span, no question need go to the clock.
   */
  private look(): void {
    if (this.nowS >= this.hereFromS && this.nowS < this.here.endS) return;
    this.here = this.clock.segmentAt(this.nowS);
    this.hereFromS = this.nowS;
    this.spanEndS = this.here.open ? this.clock.spanEnd(this.nowS) : Number.NEGATIVE_INFINITY;
  }

  private arrival(): number {
    const { nowS, here } = this;
    if (this.last === -1) return nowS;
    const before = this.plan.events[this.last]!;
    const isTurn = before.station === this.plan.events[this.next]!.station;
    const workS = isTurn ? this.turnTime() : this.wayTime();
    if (workS === 0) return nowS;
    const plainS = nowS + workS;
    if (isTurn) return plainS <= this.spanEndS ? plainS : this.clock.openEnd(nowS, workS);
    return here.open && !here.slow && plainS <= here.endS ? plainS : this.clock.travelEnd(nowS, workS);
  }

  private turnTime(): number {
    if (this.straightOn()) return this.plan.events[this.last]!.toNextS;
    return this.plan.hands === 2 ? this.plan.indexS : 0;
  }

  /** The next event is also the next of the order, with as full a hand as the schedule had. */
  private straightOn(): boolean {
    return (this.last + 1) % this.n === this.next;
  }

  private wayTime(): number {
    const before = this.plan.events[this.last]!;
    const loaded = this.inHand > 0;
    if (this.straightOn() && loaded === before.loadedToNext) return before.toNextS;
    const straight = this.plan.wayS(this.last, this.next, loaded);
    if (straight !== null) return straight;
    // No input gives the straight way: the robot goes past the skipped stations.
    let pastS = 0;
    for (let i = this.last; i !== this.next; i = (i + 1) % this.n) pastS += this.plan.events[i]!.toNextS;
    return pastS;
  }

  /** When the machines, the feeder and the timetable allow the next event. */
  private readyTime(): number {
    let ready = Number.NEGATIVE_INFINITY;
    for (const link of this.plan.links[this.next]!) {
      const t = this.endS[link.lag * this.n + link.place]! + link.processS;
      if (t > ready) ready = t;
    }
    this.finishS = ready;
    const feeder = this.plan.feederOf[this.next]!;
    if (feeder >= 0) ready = Math.max(ready, this.feederEndS[feeder]! + this.plan.feederS[this.next]!);
    if (this.plan.gapS !== null) ready = Math.max(ready, this.lastStartS + this.timetableGap());
    return ready;
  }

  private timetableGap(): number {
    const gaps = this.here.slow ? (this.plan.slowGapS ?? this.plan.gapS!) : this.plan.gapS!;
    if (this.last === -1) return 0;
    let sum = 0;
    let i = this.last;
    do {
      i = (i + 1) % this.n;
      sum += gaps[i]!;
    } while (i !== this.next);
    return sum;
  }

  private longestWait(): number {
    return this.plan.links[this.next]!.reduce(
      (least, l) => Math.min(least, l.maxWaitS),
      Number.POSITIVE_INFINITY,
    );
  }

  /** Planned stops due before this event: each begins when the station is done, and the event waits for its end. */
  private waitForStops(): void {
    const station = this.plan.stationOf[this.next]!;
    let freeS = Math.max(
      this.stationEndS[station]!,
      this.beforeEnd[this.next] ? this.finishS : Number.NEGATIVE_INFINITY,
    );
    for (const s of this.stopsAt[station]!) {
      const stop = this.stops[s]!;
      const threshold = this.beforeEnd[this.next] ? (stop.everyParts ?? 0) - 1 : stop.everyParts!;
      if (stop.everyParts !== null ? this.stopCount[s]! < threshold : !(this.startS >= this.stopDueS[s]!))
        continue;
      const dueS = Math.max(
        freeS,
        stop.everyParts !== null ? Number.NEGATIVE_INFINITY : this.stopDueS[s]!,
        0,
      );
      const workS = stop.minutes * 60;
      const doneS = stop.operator ? this.clock.operatorEnd(dueS, workS) : dueS + workS;
      if (stop.operator && doneS > Math.max(this.startS, dueS + workS) + 1)
        this.pending.push({
          cause: 'waits for operator',
          station: stop.station,
          stop: stop.name,
          fromS: dueS,
          untilS: doneS,
        });
      this.startS = Math.max(this.startS, doneS);
      freeS = Math.max(freeS, doneS);
      this.due.push(s, doneS);
      this.disturbed = true;
    }
  }

  /**
   * A changeover that falls due before the next part would be done: it begins when the station is empty and people can
   * begin. Where they come later than that, the machine goes on until then.
   */
  private waitForChangeover(): void {
    const station = this.plan.stationOf[this.next]!;
    const latestS = this.startS + this.plan.changeoverS[this.next]!;
    for (const row of this.rowsAt[station]!) {
      if (this.turnFromS[row]! > latestS) continue;
      const stopsOverS = this.due.filter((_, i) => i % 2 === 1);
      const soonestS = this.turnFromS[row]! - this.plan.changeoverS[this.next]!;
      const fromS = this.earliestTurn(row, Math.max(soonestS, this.stationEndS[station]!, ...stopsOverS));
      if (fromS > latestS) {
        this.turnFromS[row] = fromS;
        continue;
      }
      this.turning = this.turnOf(row, fromS);
      this.startS = Math.max(this.startS, this.turning.standsUntilS);
      this.disturbed = true;
    }
  }

  /** Racks are kept full (outfeeds empty) while the operator is there, and run down while not. */
  private waitForRack(): void {
    const station = this.plan.stationOf[this.next]!;
    const { robotS } = this.plan.events[this.next]!;
    this.rackLeft = this.rack[station]!;
    if (this.here.operator || this.clock.operatorEnd(this.rackSeenS[station]!, 0) <= this.startS)
      this.rackLeft = this.racks[station]!;
    if (this.rackLeft >= 1) return;
    const fromS = this.startS;
    this.startS = this.clock.fitStart(this.clock.operatorEnd(this.startS, 0), robotS);
    this.rackLeft = this.racks[station]!;
    this.disturbed = true;
    const cause = this.plan.takesIn[this.next] ? 'rack empty' : 'rack full';
    this.pending.push({ cause, station: this.plan.stations[station]!, stop: '', fromS, untilS: this.startS });
  }

  private commit(end: number): void {
    const { plan, next, tally } = this;
    const event = plan.events[next]!;
    const station = plan.stationOf[next]!;
    const part = plan.partOf[next]!;
    if (Math.max(this.spanEndS, this.nowS) < this.startS) this.disturbed = true;
    tally.busyS += event.robotS + this.openWayTime();
    if (this.counts[next]) this.settleStops();
    if (this.turning !== null) this.settleTurn(this.turning);
    if (this.takesRack[next]) this.settleRack(station, end);
    if (plan.hasLongestWaits) this.settleSpoiled();
    for (const p of this.pending) if (tally.standstills.length < MOST_STANDSTILLS) tally.standstills.push(p);
    if (event.action === 'pick') {
      this.inHand++;
      if (!plan.takesIn[next]) this.content[station]!--;
    } else if (event.action === 'place') {
      this.inHand--;
      if (!plan.putsOut[next]) this.content[station]!++;
    }
    if (plan.takesIn[next]) tally.taken[part]!++;
    if (plan.putsOut[next]) this.countOut(part, end, this.spoiled[next] === 1, 1);
    this.endS[next] = end;
    this.stationEndS[station] = end;
    if (plan.feederOf[next]! >= 0) this.feederEndS[plan.feederOf[next]!] = end;
    if (this.conditions.onEvent !== undefined)
      this.conditions.onEvent({ index: next, period: this.period, startS: this.startS, endS: end });
    this.lastStartS = this.startS;
    this.nowS = end;
    this.last = next;
    this.doneInPeriod++;
    if (this.disturbed && this.snapshots.length > 0) this.snapshots.length = 0;
  }

  /** Open time of the way to the event. */
  private openWayTime(): number {
    const { nowS, arrivalS } = this;
    if (arrivalS <= nowS) return 0;
    return arrivalS <= this.spanEndS ? arrivalS - nowS : this.clock.openBetween(nowS, arrivalS);
  }

  private settleStops(): void {
    const station = this.plan.stationOf[this.next]!;
    for (const s of this.stopsAt[station]!) if (this.stops[s]!.everyParts !== null) this.stopCount[s]!++;
    for (let i = 0; i < this.due.length; i += 2) {
      const s = this.due[i]!;
      const { everyParts, everyH } = this.stops[s]!;
      if (everyParts !== null) this.stopCount[s] = this.beforeEnd[this.next] ? 0 : 1;
      else this.stopDueS[s] = this.clock.openEnd(this.due[i + 1]!, everyH! * 3600);
    }
  }

  private settleRack(station: number, end: number): void {
    this.rack[station] = this.rackLeft - 1;
    this.rackSeenS[station] = end;
  }

  /** Carries the mark of an overrun wait along with the part. */
  private settleSpoiled(): void {
    const event = this.plan.events[this.next]!;
    if (event.action === 'pick')
      this.spoiled[this.next] =
        this.overran || this.plan.links[this.next]!.some((l) => this.spoiled[l.lag * this.n + l.place] === 1)
          ? 1
          : 0;
    else this.spoiled[this.next] = this.spoiled[event.pickLag * this.n + event.pickIndex]!;
  }

  private countOut(part: number, atS: number, bad: boolean, times: number): void {
    (bad ? this.tally.overrun : this.tally.out)[part]! += times;
    const justS = Math.max(0, atS - 1e-6);
    const isHere = justS >= this.hereFromS && justS < this.here.endS;
    const { shift } = isHere ? this.here : this.clock.segmentAt(justS);
    if (shift >= 0 && shift < this.shifts) this.tally.outByShift[shift]! += times;
  }

  /** Begins the next period; jumps where the last ones repeated. */
  private wrap(): void {
    this.next = 0;
    this.period++;
    if (this.depth > 0) {
      this.endS.copyWithin(this.n, 0, this.n * this.depth);
      this.spoiled.copyWithin(this.n, 0, this.n * this.depth);
    }
    if (this.skippedInPeriod) this.snapshots.length = 0;
    else if (this.conditions.onEvent === undefined) this.tryJump();
    this.skippedInPeriod = false;
    this.doneInPeriod = 0;
  }

  private tryJump(): void {
    this.look();
    const segment = this.here;
    if (this.snapshots.length > 0 && this.snapshots[0]!.segmentEndS !== segment.endS)
      this.snapshots.length = 0;
    for (let c = 1; c <= this.snapshots.length; c++) {
      const before = this.snapshots[this.snapshots.length - c]!;
      if (!this.repeats(before)) continue;
      this.jump(before, c, segment.endS, segment.operator);
      this.snapshots.length = 0;
      break;
    }
    this.snapshots.push({
      nowS: this.nowS,
      lastStartS: this.lastStartS,
      endS: this.endS.slice(this.n),
      feederEndS: this.feederEndS.slice(),
      busyS: this.tally.busyS,
      segmentEndS: segment.endS,
    });
    if (this.snapshots.length > MOST_CYCLE) this.snapshots.shift();
  }

  /** The state of `before` and of now differ only by a shift in time. */
  private repeats(before: Snapshot): boolean {
    const shift = this.nowS - before.nowS;
    if (!(shift > 0)) return false;
    if (this.plan.hasLongestWaits && this.spoiled.some((s) => s === 1)) return false;
    const near = (now: number, then: number): boolean => Math.abs(now - then - shift) <= SAME_S;
    if (!near(this.lastStartS, before.lastStartS)) return false;
    for (let i = 0; i < before.endS.length; i++)
      if (!near(this.endS[this.n + i]!, before.endS[i]!)) return false;
    for (let i = 0; i < this.feederEndS.length; i++)
      if (!near(this.feederEndS[i]!, before.feederEndS[i]!)) return false;
    return true;
  }

  /** Skips as many repetitions as surely fit before anything changes. */
  private jump(before: Snapshot, cycle: number, segmentEndS: number, operator: boolean): void {
    const lengthS = this.nowS - before.nowS;
    let limitS = Math.min(segmentEndS, this.untilS);
    if (this.conditions.atEnd === 'run out')
      limitS = Math.min(
        limitS,
        Math.min(this.clock.spanEnd(this.nowS), ...this.turnFromS) - Math.max(...this.plan.lifeS),
      );
    this.rows.forEach(({ station }, row) => {
      limitS = Math.min(limitS, this.turnFromS[row]! - this.heldBackS[this.plan.stations.indexOf(station)]!);
    });
    for (const d of this.stopDueS) if (!Number.isNaN(d)) limitS = Math.min(limitS, d);
    let times = Math.floor((limitS - this.nowS) / lengthS) - 1;
    this.stops.forEach((stop, s) => {
      const each = this.perPeriod.stop[s]! * cycle;
      if (stop.everyParts !== null && each > 0)
        times = Math.min(times, Math.floor((stop.everyParts - this.stopCount[s]!) / each) - 1);
    });
    if (!operator)
      this.perPeriod.rack.forEach((each, station) => {
        if (each > 0 && this.racks[station]! < Number.POSITIVE_INFINITY)
          times = Math.min(times, Math.floor(this.rack[station]! / (each * cycle)) - 1);
      });
    if (times < 1) return;
    this.applyJump(times * cycle, times * lengthS, (this.tally.busyS - before.busyS) * times);
  }

  private applyJump(periods: number, byS: number, busyS: number): void {
    const halfwayS = this.nowS + byS / 2;
    this.period += periods;
    this.tally.busyS += busyS;
    this.plan.events.forEach((_, i) => {
      if (this.plan.takesIn[i]) this.tally.taken[this.plan.partOf[i]!]! += periods;
      if (this.plan.putsOut[i]) this.countOut(this.plan.partOf[i]!, halfwayS, false, periods);
    });
    this.stops.forEach((stop, s) => {
      if (stop.everyParts !== null) this.stopCount[s]! += this.perPeriod.stop[s]! * periods;
    });
    const present = this.clock.segmentAt(halfwayS).operator;
    this.perPeriod.rack.forEach((each, station) => {
      if (each === 0 || this.racks[station] === Number.POSITIVE_INFINITY) return;
      this.rack[station] = present ? this.racks[station]! - 1 : this.rack[station]! - each * periods;
      this.rackSeenS[station]! += byS;
    });
    this.nowS += byS;
    this.lastStartS += byS;
    for (const times of [this.endS, this.feederEndS, this.stationEndS])
      for (let i = 0; i < times.length; i++) times[i]! += byS;
  }
}

/** Parts that each stop counts, and that each rack gives or takes, in one period. */
function countPerPeriod(
  plan: OrderPlan,
  stops: readonly PlannedStop[],
  counts: readonly boolean[],
): { readonly stop: number[]; readonly rack: number[] } {
  const at = (of: (i: number) => boolean, station: number): number =>
    plan.events.reduce((sum, _, i) => sum + (of(i) && plan.stationOf[i] === station ? 1 : 0), 0);
  return {
    stop: stops.map((s) => at((i) => counts[i]!, plan.stations.indexOf(s.station))),
    rack: plan.stations.map((_, s) => at((i) => plan.takesIn[i]! || plan.putsOut[i]!, s)),
  };
}

interface Snapshot {
  readonly nowS: number;
  readonly lastStartS: number;
  readonly endS: Float64Array;
  readonly feederEndS: Float64Array;
  readonly busyS: number;
  readonly segmentEndS: number;
}
