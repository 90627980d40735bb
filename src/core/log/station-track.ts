/**
 * Follows one station through its signals and measures what lies between them. A time counts only where both its ends
 * were logged without a break between them; what lacks an end is counted as damage.
 */
import type { Damage } from './damage.js';
import { Lacks } from './lacks.js';
import { endsWithin } from './long-silence.js';
import { Measure } from './measure.js';
import {
  ATTEND,
  FINISH,
  PAUSE,
  PICK,
  PICKED,
  PLACE,
  PLACED,
  READY,
  RESUME,
  RUN,
  START,
  STOP,
} from './signals.js';
import { TimesByPart } from './times-by-part.js';
import { oldest, takeOldest, type UnderWay } from './waiting-line.js';

/** What is known of a station beforehand. */
export interface StationFacts {
  /** Parts it holds at once; Infinity = no limit. */
  readonly capacity: number;
  /** Parts that one cycle works on, at most. */
  readonly mostPerCycle: number;
  /** Time from finish until the robot may enter, where the log has no `ready`. */
  readonly readyS: number;
}

export const UNKNOWN_STATION: StationFacts = { capacity: 1, mostPerCycle: 64, readyS: 0 };

interface OpenCycle extends UnderWay {
  readonly parts: number;
  stoodS: number;
  stops: number;
  /** False where a stop in it has no known end. */
  isWhole: boolean;
}

interface OpenStop extends UnderWay {
  readonly cycle: OpenCycle | undefined;
  attended: UnderWay | null;
}

interface Finished extends UnderWay {
  readonly parts: number;
  partsLeft: number;
  /** When the robot may enter. */
  readyS: number;
  isReady: boolean;
}

/** For what began at an unknown time: no time is measured from it. */
const NO_STRETCH = -1;

export class StationTrack {
  readonly cycle = new TimesByPart();
  readonly load = new TimesByPart();
  readonly unload = new TimesByPart();
  /** Between two finishes. */
  readonly interval = new Measure();
  /** From finish, or from the moment when the robot may enter, to the robot's pick. */
  readonly wait = new Measure();
  readonly ready = new Measure();
  readonly close = new Measure();
  readonly stop = new Measure();
  readonly repair = new Measure();
  readonly response = new Measure();
  readonly pause = new Measure();
  /** Records of each signal. */
  readonly seen = new Float64Array(16);
  /** Finishes and placed parts, by part; -1 = not named. */
  readonly finishes = new Map<number, number>();
  readonly placed = new Map<number, number>();
  /** Stops that fell into whole measured cycles, and the processing time of those. */
  stopsInCycles = 0;
  processingS = 0;

  private readonly cycles: OpenCycle[] = [];
  private readonly finished: Finished[] = [];
  private readonly stops: OpenStop[] = [];
  private readonly pauses: OpenStop[] = [];
  private readonly picking: UnderWay[] = [];
  private readonly placing: UnderWay[] = [];
  private placedSinceStart = 0;
  private lastPlaced: UnderWay | null = null;
  private lastFinish: UnderWay | null = null;
  /** Signals met in the present stretch, as bits. */
  private met = 0;
  private stretch = -1;

  private readonly lacks = new Lacks();
  private readonly takers: Readonly<Record<number, (now: UnderWay, line: number) => void>> = {
    [START]: (now, line) => this.onStart(now, line),
    [FINISH]: (now, line) => this.onFinish(now, line),
    [READY]: (now, line) => this.onReady(now, line),
    [STOP]: (now, line) => this.onStop(now, line),
    [ATTEND]: (now, line) => this.onAttend(now, line),
    [RUN]: (now, line) => this.onRun(now, line),
    [PAUSE]: (now, line) => this.onPause(now, line),
    [RESUME]: (now, line) => this.onResume(now, line),
    [PLACE]: (now, line) => this.onPlace(now, line),
    [PLACED]: (now, line) => this.onPlaced(now, line),
    [PICK]: (now, line) => this.onPick(now, line),
    [PICKED]: (now, line) => this.onPicked(now, line),
  };

  constructor(private readonly facts: StationFacts) {}

  /** @param now the time, the part, and the stretch of the log; it is kept, so it must not change */
  add(now: UnderWay, signal: number, line: number): void {
    if (now.stretch !== this.stretch) {
      this.stretch = now.stretch;
      this.met = 0;
    }
    this.seen[signal]!++;
    this.takers[signal]?.(now, line);
    this.met |= 1 << signal;
  }

  // ---- cycles -------------------------------------------------------------------------------------------------

  private onStart(now: UnderWay, line: number): void {
    const { capacity, mostPerCycle } = this.facts;
    if (capacity === 1) this.endPlacing(line);
    const parts = Math.max(1, Math.min(mostPerCycle, this.placedSinceStart));
    const mostCycles = Math.max(1, Math.floor(capacity / parts));
    while (this.cycles.length >= mostCycles) this.giveUp(this.cycles.shift()!, FINISH, line);
    if (capacity === 1) this.forgetFinished(line);
    if (this.lastPlaced !== null) this.span(this.close, this.lastPlaced, now);
    this.lastPlaced = null;
    this.placedSinceStart = 0;
    const { timeS, part, stretch } = now;
    this.cycles.push({ timeS, part, stretch, parts, stoodS: 0, stops: 0, isWhole: true });
  }

  private onFinish(now: UnderWay, line: number): void {
    const cycle = takeOldest(this.cycles, now.part);
    const part = now.part >= 0 ? now.part : (cycle?.part ?? -1);
    if (cycle === undefined) this.lack(START, line);
    else this.addCycle(cycle, now, part, line);
    if (this.lastFinish !== null) this.span(this.interval, this.lastFinish, now);
    this.lastFinish = now;
    const parts = cycle?.parts ?? 1;
    this.finishes.set(part, (this.finishes.get(part) ?? 0) + parts);
    if (this.facts.capacity === 1) this.forgetFinished(line);
    const { timeS, stretch } = now;
    const readyS = timeS + this.facts.readyS;
    this.finished.push({ timeS, part, stretch, parts, partsLeft: parts, readyS, isReady: false });
    this.placedSinceStart = 0;
    this.lastPlaced = null;
  }

  private addCycle(cycle: OpenCycle, now: UnderWay, part: number, line: number): void {
    this.endOpenStops(this.stops, cycle, RUN, line);
    this.endOpenStops(this.pauses, cycle, RESUME, line);
    if (cycle.stretch !== now.stretch) this.lacks.note('cut', FINISH, line);
    else if (cycle.isWhole) {
      const seconds = Math.max(0, now.timeS - cycle.timeS - cycle.stoodS);
      this.cycle.add(seconds, part);
      this.processingS += seconds;
      this.stopsInCycles += cycle.stops;
    }
  }

  /** Stops whose end was not logged, though their cycle has ended. */
  private endOpenStops(stops: OpenStop[], cycle: OpenCycle, missing: number, line: number): void {
    for (let at = stops.length - 1; at >= 0; at--) {
      if (stops[at]!.cycle !== cycle) continue;
      cycle.isWhole = false;
      this.giveUp(stops.splice(at, 1)[0]!, missing, line);
    }
  }

  private onReady(now: UnderWay, line: number): void {
    const waiting = this.finished.find((f) => !f.isReady && (now.part < 0 || f.part === now.part));
    if (waiting === undefined) {
      const cycle = this.lackFinish(now, line);
      const parts = cycle?.parts ?? 1;
      const late = { ...now, parts, partsLeft: parts, readyS: now.timeS, isReady: true };
      this.finished.push(late);
      return;
    }
    this.span(this.ready, waiting, now);
    waiting.readyS = now.timeS;
    waiting.isReady = true;
  }

  /** A finish was not logged; its cycle is over all the same. */
  private lackFinish(now: UnderWay, line: number): OpenCycle | undefined {
    this.lack(FINISH, line);
    return takeOldest(this.cycles, now.part);
  }

  /** A finished part that the log does not see leave. */
  private forgetFinished(line: number): void {
    for (const waiting of this.finished.splice(0)) this.giveUp(waiting, PICK, line);
  }

  // ---- stops --------------------------------------------------------------------------------------------------

  private onStop(now: UnderWay, line: number): void {
    if (this.facts.capacity === 1) this.giveUpStops(this.stops, RUN, line);
    const cycle = oldest(this.cycles, now.part);
    if (cycle !== undefined) cycle.stops++;
    this.stops.push({ ...now, cycle, attended: null });
  }

  private onAttend(now: UnderWay, line: number): void {
    const stop = oldest(
      this.stops.filter((s) => s.attended === null),
      now.part,
    );
    if (stop === undefined) {
      const cycle = this.lackBegin(STOP, now, line);
      this.stops.push({ ...now, stretch: NO_STRETCH, cycle, attended: now });
      return;
    }
    stop.attended = now;
    this.span(this.response, stop, now);
  }

  private onRun(now: UnderWay, line: number): void {
    const stop = takeOldest(this.stops, now.part);
    if (stop === undefined) {
      this.lackBegin(STOP, now, line);
      return;
    }
    this.standStill(stop, now);
    this.span(this.stop, stop, now);
    if (stop.attended !== null) this.span(this.repair, stop.attended, now);
    else if (this.met & (1 << ATTEND)) this.lack(ATTEND, line);
  }

  private onPause(now: UnderWay, line: number): void {
    if (this.facts.capacity === 1) this.giveUpStops(this.pauses, RESUME, line);
    this.pauses.push({ ...now, cycle: oldest(this.cycles, now.part), attended: null });
  }

  private onResume(now: UnderWay, line: number): void {
    const pause = takeOldest(this.pauses, now.part);
    if (pause === undefined) {
      this.lackBegin(PAUSE, now, line);
      return;
    }
    this.standStill(pause, now);
    this.span(this.pause, pause, now);
  }

  /** Stops that another one follows before their end was logged. */
  private giveUpStops(stops: OpenStop[], missing: number, line: number): void {
    for (const open of stops.splice(0)) {
      if (open.cycle !== undefined) open.cycle.isWhole = false;
      this.giveUp(open, missing, line);
    }
  }

  /** The begin of a stop was not logged, so nothing can be said of the time of its cycle. */
  private lackBegin(missing: number, now: UnderWay, line: number): OpenCycle | undefined {
    this.lack(missing, line);
    const cycle = oldest(this.cycles, now.part);
    if (cycle !== undefined) cycle.isWhole = false;
    return cycle;
  }

  private standStill(stop: OpenStop, now: UnderWay): void {
    if (stop.cycle !== undefined) stop.cycle.stoodS += now.timeS - stop.timeS;
  }

  // ---- the robot ----------------------------------------------------------------------------------------------

  private onPlace(now: UnderWay, line: number): void {
    this.endPlacing(line);
    this.placing.push(now);
  }

  /** Places whose end was not logged; the part is there all the same. */
  private endPlacing(line: number): void {
    for (const open of this.placing.splice(0)) {
      this.giveUp(open, PLACED, line);
      this.countPlaced(open);
    }
  }

  private onPlaced(now: UnderWay, line: number): void {
    const open = this.placing.shift();
    if (open === undefined) this.lack(PLACE, line);
    else this.spanByPart(this.load, open, now);
    this.countPlaced(now.part < 0 && open !== undefined ? open : now);
    this.lastPlaced = now;
  }

  private countPlaced({ part }: UnderWay): void {
    this.placed.set(part, (this.placed.get(part) ?? 0) + 1);
    this.placedSinceStart++;
  }

  private onPick(now: UnderWay, line: number): void {
    for (const open of this.picking.splice(0)) this.giveUp(open, PICKED, line);
    this.picking.push(now);
    const waiting = oldest(this.finished, now.part);
    if (waiting === undefined) {
      // The station has cycles of its own; an infeed or outfeed has none.
      if (this.seen[START]! + this.seen[FINISH]! > 0) this.lackFinish(now, line);
      return;
    }
    if (waiting.partsLeft === waiting.parts) this.addWait(waiting, now, line);
    this.takePart(waiting);
  }

  private addWait(waiting: Finished, now: UnderWay, line: number): void {
    if (waiting.stretch !== now.stretch) this.lacks.note('cut', PICK, line);
    else if (!waiting.isReady && this.met & (1 << READY)) this.lack(READY, line);
    else this.wait.add(Math.max(0, now.timeS - waiting.readyS));
  }

  private takePart(waiting: Finished): void {
    waiting.partsLeft--;
    if (waiting.partsLeft === 0) this.finished.splice(this.finished.indexOf(waiting), 1);
  }

  private onPicked(now: UnderWay, line: number): void {
    const open = this.picking.shift();
    if (open === undefined) {
      this.lack(PICK, line);
      const waiting = oldest(this.finished, now.part);
      if (waiting !== undefined) this.takePart(waiting);
    } else this.spanByPart(this.unload, open, now);
  }

  // ---- what is missing ----------------------------------------------------------------------------------------

  /** A signal that must have come before this record. At the begin of a stretch it may lie before it. */
  private lack(missing: number, line: number): void {
    if (this.met & (1 << missing)) this.miss(missing, line);
    else this.lacks.note('cut', missing, line);
  }

  /** Something begun whose end never came. */
  private giveUp(open: UnderWay, missing: number, line: number): void {
    if (open.stretch === this.stretch) this.miss(missing, line);
    else this.lacks.note('cut', missing, line);
  }

  private miss(missing: number, line: number): void {
    this.lacks.note('missing', missing, line);
  }

  /** Tells what was missing: a signal that this station never logs is not missing. */
  end(damage: Damage, station: string): void {
    this.lacks.tell(damage, station, (signal) => this.seen[signal]! > 0);
  }

  // ---- a clock put ahead -----------------------------------------------------------------------------------------

  /** Cycles under way since before a silence that would have ended in it. */
  overdueCycles(silenceS: number, stretch: number): number {
    if (this.isStopped) return 0;
    return this.cycles.filter(
      (c) => c.stretch === stretch && endsWithin(silenceS, this.cycle.usualFor(c.part)),
    ).length;
  }

  /** The robot is in the middle of a pick or place here that would have ended in the silence. */
  isRobotOverdue(silenceS: number, stretch: number): boolean {
    const overdue = (open: readonly UnderWay[], usual: TimesByPart): boolean =>
      open.some((o) => o.stretch === stretch) && endsWithin(silenceS, usual.all);
    return overdue(this.picking, this.unload) || overdue(this.placing, this.load);
  }

  get isStopped(): boolean {
    return this.stops.length + this.pauses.length > 0;
  }

  get logsStops(): boolean {
    return this.seen[STOP]! > 0;
  }

  /** Adds the time between two records, unless a break lies between. */
  private span(measure: Measure, from: UnderWay, to: UnderWay): boolean {
    if (from.stretch !== to.stretch) return false;
    measure.add(to.timeS - from.timeS);
    return true;
  }

  private spanByPart(measure: TimesByPart, from: UnderWay, to: UnderWay): void {
    if (from.stretch === to.stretch) measure.add(to.timeS - from.timeS, to.part >= 0 ? to.part : from.part);
  }
}
