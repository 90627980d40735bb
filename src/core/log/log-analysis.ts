/**
 * Reads a log of signals record by record and measures what lies between them: a fold in fixed memory, whatever the
 * length of the log, that runs in a page as well.
 */
import type { Shift } from '../model/cell.js';
import { CleanEdges } from './clean-edges.js';
import { Damage } from './damage.js';
import { offsetText } from './log-clock.js';
import { type LogFacts, NO_FACTS } from './log-facts.js';
import { isClockAhead, SHORTEST_SILENCE_S } from './long-silence.js';
import { Names } from './names.js';
import { PartCount } from './part-count.js';
import type { TakeRecord } from './record-queue.js';
import { RobotTrack } from './robot-track.js';
import { ShiftTurns } from './shift-turns.js';
import { ARRIVE, ATTEND, FINISH, LEAVE, PICK, PLACED, RESUME, RUN } from './signals.js';
import { StationTrack, UNKNOWN_STATION } from './station-track.js';
import { type LogBreak, TimeLine } from './time-line.js';

export interface LogOptions {
  /** How late a record may come and still be put in its place, seconds. */
  readonly windowS: number;
  /** Silence that counts as a gap of the log, seconds; above the window. */
  readonly gapS: number;
  /** Edges of one signal closer than this are bounces, seconds. */
  readonly bounceS: number;
  /** Confidence of all intervals, 0 to 1. */
  readonly confidence: number;
}

export const LOG_DEFAULTS: LogOptions = { windowS: 5, gapS: 3600, bounceS: 0.1, confidence: 0.95 };

export interface LogContext {
  readonly facts?: LogFacts;
  /** Rows of the shift pattern that was worked. */
  readonly shifts?: readonly Shift[];
  /** Zone of the shifts; default: that in which the log begins. */
  readonly zone?: string | null;
  /** The robot is slower in attended shifts, so ways are told apart by them. */
  readonly slowAttended?: boolean;
}

/** Where one of these ends a silence, there was a stop in it, though its start is not in the log. */
const ENDS_OF_STOPS: readonly number[] = [ATTEND, RUN, RESUME];

export class LogAnalysis {
  readonly stations = new Names();
  readonly parts = new Names();
  readonly damage = new Damage();
  /** By number of the station; without one where none of its records could be used. */
  readonly tracks: (StationTrack | undefined)[] = [];
  readonly robot: RobotTrack;
  readonly breaks: LogBreak[] = [];
  readonly placed = new PartCount();
  readonly finished = new PartCount();
  readonly line: TimeLine;
  readonly facts: LogFacts;
  turns: ShiftTurns | null = null;
  records = 0;
  used = 0;
  /** Moment of clock time 0, seconds since 1970. */
  baseS = 0;
  private stretch = 0;
  /** The latest record taken, on the time line and by its own clock. */
  private topS = Number.NaN;
  private topClockS = 0;
  private readonly edges: CleanEdges;
  /** By station: 1 = a placed part is a part made, 2 = a finish is one, where it is the last work. */
  private readonly counts: number[] = [];

  /** @throws RangeError where the window is not below the gap, or the bounce time not below the window */
  constructor(
    readonly options: LogOptions = LOG_DEFAULTS,
    private readonly context: LogContext = {},
  ) {
    checkOptions(options);
    this.facts = context.facts ?? NO_FACTS;
    this.robot = new RobotTrack(() => this.parts.list.length > 0);
    const several = (station: number): boolean =>
      (this.facts.stations.get(this.stations.list[station]!)?.capacity ?? 1) > 1;
    this.edges = new CleanEdges(options.bounceS, several, this.damage, this.takeClean);
    this.line = new TimeLine(options, this.damage, this.edges.add, (at) => this.onBreak(at));
  }

  /**
   * To be called before the first record.
   *
   * @param baseS moment of clock time 0, seconds since 1970; null = not known, so that no shifts can be told
   * @param offsetMin minutes east of UTC in which the log begins
   */
  begin(baseS: number | null, offsetMin: number): void {
    const { shifts = [], zone } = this.context;
    this.baseS = baseS ?? 0;
    if (baseS !== null && shifts.length > 0)
      this.turns = new ShiftTurns(shifts, zone ?? offsetText(offsetMin));
  }

  /** Ways are told apart by attended and unattended shifts. */
  get slowAttended(): boolean {
    return this.turns !== null && this.context.slowAttended === true;
  }

  /** @param code as recordCode gives it; @param part -1 = not named; @param line line of the file */
  add(clockS: number, station: number, code: number, part: number, line: number): void {
    this.records++;
    this.line.add(clockS, station, code, part, line);
  }

  private onBreak(at: LogBreak): void {
    this.edges.flush();
    this.breaks.push(at);
    this.stretch++;
  }

  private readonly takeClean: TakeRecord = (timeS, clockS, station, signal, part, line) => {
    this.used++;
    if (!(timeS <= this.topS)) {
      const silenceS = timeS - this.topS;
      if (silenceS > SHORTEST_SILENCE_S && this.isAhead(silenceS, signal)) this.goAhead(clockS, line);
      this.topS = timeS;
      this.topClockS = clockS;
    }
    const track = this.trackOf(station);
    const now = { timeS, part, stretch: this.stretch };
    track.add(now, signal, line);
    if (signal >= PICK || signal <= PLACED) {
      const attended =
        this.slowAttended && signal === ARRIVE && this.turns?.at(this.baseS + clockS)?.attended === true;
      this.robot.add(now, station, signal, attended, line);
    }
    if (signal === PLACED && this.counts[station] === 1)
      this.placed.add(this.turns, this.baseS + clockS, now);
    if (signal === FINISH && this.counts[station] === 2)
      this.finished.add(this.turns, this.baseS + clockS, now);
  };

  /** @param signal ends the silence */
  private isAhead(silenceS: number, signal: number): boolean {
    if (ENDS_OF_STOPS.includes(signal)) return false;
    let [cycles, watched] = [0, 0];
    let robot = this.robot.isOverdue(silenceS, this.stretch);
    let isStopped = false;
    for (const track of this.tracks) {
      if (track === undefined) continue;
      const own = track.overdueCycles(silenceS, this.stretch);
      cycles += own;
      if (track.logsStops) watched += own;
      robot ||= track.isRobotOverdue(silenceS, this.stretch);
      isStopped ||= track.isStopped;
    }
    return isClockAhead({ cycles, watched, robot, isStopped });
  }

  private goAhead(clockS: number, line: number): void {
    this.damage.note('clock ahead', line);
    this.breaks.push({ kind: 'clock ahead', fromS: this.topClockS, toS: clockS, line });
    this.stretch++;
  }

  private trackOf(station: number): StationTrack {
    let track = this.tracks[station];
    if (track === undefined) {
      const name = this.stations.list[station]!;
      const facts = this.facts.stations.get(name);
      track = new StationTrack(facts ?? UNKNOWN_STATION);
      this.tracks[station] = track;
      this.counts[station] = facts?.kind === 'outfeed' ? 1 : this.facts.lastWork.has(name) ? 2 : 0;
    }
    return track;
  }

  /** To be called once after the last record. */
  end(): void {
    this.line.end();
    this.edges.flush();
    for (const [i, track] of this.tracks.entries()) track?.end(this.damage, this.stations.list[i]!);
    const { robot } = this;
    for (const [i, lacks] of robot.lacks)
      lacks.tell(this.damage, this.stations.list[i]!, (signal) =>
        signal === LEAVE ? robot.seenLeave > 0 : robot.seenArrive > 0,
      );
  }
}

function checkOptions({ windowS, gapS, bounceS, confidence }: LogOptions): void {
  if (!(windowS >= 0 && gapS > windowS))
    throw new RangeError(
      `a gap must be longer than the window in which records are put in order: found ${gapS} s and ${windowS} s`,
    );
  if (!(bounceS >= 0 && bounceS < gapS))
    throw new RangeError(`a bounce must be shorter than a gap: found ${bounceS} s`);
  if (!(confidence > 0 && confidence < 1)) throw new RangeError('the confidence must lie between 0 and 1');
}
