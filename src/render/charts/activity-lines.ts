/** The multiple-activity chart's rows as pieces of time with words: the robot's moves and each station's stretches. */
import type { ScheduleFound } from '../../core/schedule/result.js';
import { numberText } from '../numbers.js';
import { movesOfRound, type RoundMove } from '../robot-round.js';
import { isAct, type RobotStretch, robotStretches } from '../robot-stretches.js';
import type { StationState } from '../station-stretches.js';
import { stationTimeline } from '../station-timeline.js';
import type { Mark } from './bar.js';

/** A stretch of time with one mark. Times count from the start of the first round and repeat with the period. */
export interface Piece {
  readonly startS: number;
  readonly endS: number;
  readonly mark: Mark;
}

/** What belongs together and is told together. */
export interface Activity {
  readonly pieces: readonly Piece[];
  /** What happens, without when. */
  readonly what: string;
  /** Number shown over the bar: that of the move's first action. */
  readonly number: number | null;
  /** What lies at the station; null for the robot, which may hold two. */
  readonly part: string | null;
}

export interface ActivityLine {
  readonly name: string;
  readonly isRobot: boolean;
  /** Of one round, in order. */
  readonly activities: readonly Activity[];
}

/** The robot first, then the stations between infeed and outfeed. */
export function activityLines(schedule: ScheduleFound): ActivityLine[] {
  const stations = schedule.stations.filter(({ kind }) => kind !== 'infeed' && kind !== 'outfeed');
  return [
    { name: 'robot', isRobot: true, activities: robotActivities(schedule) },
    ...stations.map(({ station, kind }) => ({
      name: station,
      isRobot: false,
      activities: stationActivities(schedule, station, kind),
    })),
  ];
}

const ROBOT_MARKS = { pick: 'robot', place: 'robot', turn: 'robot', hold: 'held', wait: 'idle' } as const;

function robotActivities(schedule: ScheduleFound): Activity[] {
  const stretches = robotStretches(schedule);
  return movesOfRound(schedule).map((move) => ({
    what: moveText(move),
    number: move.first,
    part: null,
    pieces: stretches
      .filter(({ action }) => action >= move.first - 1 && action <= move.last - 1)
      .map((stretch) => pieceOf(stretch, schedule.periodS))
      .sort((a, b) => a.startS - b.startS),
  }));
}

/** The way to the first action ends a round: it belongs before the move that it leads to. */
function pieceOf(stretch: RobotStretch, periodS: number): Piece {
  const byS = stretch.action === 0 && !isAct(stretch) ? -periodS : 0;
  const mark = stretch.what === 'go' ? (stretch.isLoaded ? 'carry' : 'go') : ROBOT_MARKS[stretch.what];
  return { startS: stretch.startS + byS, endS: stretch.endS + byS, mark };
}

function moveText(move: RoundMove): string {
  const acts = move.first === move.last ? `action ${move.first}` : `actions ${move.first} to ${move.last}`;
  const waits = move.waitS > 0.05 ? `, after waiting ${numberText(move.waitS, 1)} s at ${move.waitsAt}` : '';
  return `robot, ${acts}: ${move.text}${waits}`;
}

const STATION_MARKS: Readonly<Record<StationState, Mark>> = {
  working: 'work',
  robot: 'robot',
  waiting: 'wait',
  filling: 'filling',
};

const STATION_WORDS: Readonly<Record<StationState, (part: string) => string>> = {
  working: (part) => `works on ${part}`,
  robot: (part) => `the robot is there with ${part}`,
  waiting: (part) => `${part} is done, waiting for unload`,
  filling: (part) => `partly loaded with ${part}`,
};

function stationActivities(schedule: ScheduleFound, station: string, kind: string): Activity[] {
  return stationTimeline(schedule, station).map(({ startS, endS, state, part }) => {
    // What lies in a buffer is where it should be.
    const isStored = kind === 'buffer' && state !== 'robot';
    const words = isStored ? `${part} is stored` : STATION_WORDS[state](part);
    const mark = isStored ? 'stored' : STATION_MARKS[state];
    return { what: `${station}: ${words}`, number: null, part, pieces: [{ startS, endS, mark }] };
  });
}

/** From where to where an activity runs, without the robot's way and wait before it. */
export function spanOf(activity: Activity): { readonly startS: number; readonly endS: number } {
  const acts = activity.pieces.filter(({ mark }) => mark !== 'go' && mark !== 'idle');
  const shown = acts.length > 0 ? acts : activity.pieces;
  return { startS: shown[0]!.startS, endS: shown.at(-1)!.endS };
}
