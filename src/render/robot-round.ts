/** The robot's round as numbered lines: what it does, when, and how long it has to wait before. */
import type { ScheduleFound } from '../core/schedule/result.js';
import { isAct, type RobotStretch, robotStretches } from './robot-stretches.js';

/** One line of the round: a carry from station to station, or a single action. */
export interface RoundMove {
  readonly startS: number;
  readonly endS: number;
  /** Numbers of the actions in the order, from 1. */
  readonly first: number;
  readonly last: number;
  readonly text: string;
  /** Robot standing before its actions, in total. */
  readonly waitS: number;
  readonly waitsAt: string;
}

/** With one hand a pick and the place that follows are one move; with two hands every action stands alone. */
export function movesOfRound(schedule: ScheduleFound): RoundMove[] {
  const stretches = robotStretches(schedule);
  const isSingle = schedule.order.every((event) => event.hand === 1);
  const moves: RoundMove[] = [];
  for (let index = 0; index < schedule.order.length; index++) {
    const joins = isSingle ? carryLength(schedule, index) : 1;
    moves.push(moveOf(schedule, stretches, index, index + joins - 1, isSingle));
    index += joins - 1;
  }
  return moves;
}

/** Actions from a pick to its place, holds in between included; 1 where the carry runs over the end of the round. */
function carryLength(schedule: ScheduleFound, index: number): number {
  const event = schedule.order[index]!;
  if (event.action !== 'pick') return 1;
  const place = schedule.order.findIndex(
    (e, i) => i > index && e.action === 'place' && e.pickIndex === index,
  );
  return place < 0 ? 1 : place - index + 1;
}

function moveOf(
  schedule: ScheduleFound,
  stretches: readonly RobotStretch[],
  from: number,
  to: number,
  isSingle: boolean,
): RoundMove {
  const inMove = (action: number) => action >= from && action <= to;
  const waits = stretches.filter((s) => s.what === 'wait' && inMove(s.action));
  const acts = stretches.filter((s) => isAct(s) && inMove(s.action));
  return {
    startS: acts[0]!.startS,
    endS: acts.at(-1)!.endS,
    first: from + 1,
    last: to + 1,
    text: moveText(schedule, from, to, isSingle),
    waitS: waits.reduce((sum, s) => sum + s.endS - s.startS, 0),
    waitsAt: [...new Set(waits.map((s) => s.station))].join(', '),
  };
}

function moveText(schedule: ScheduleFound, from: number, to: number, isSingle: boolean): string {
  const first = schedule.order[from]!;
  const last = schedule.order[to]!;
  if (from === to) {
    const hand = isSingle ? '' : ` (gripper ${first.hand})`;
    return `${first.action} ${first.part} at ${first.station}${hand}`;
  }
  const held = schedule.order.slice(from + 1, to).map((e) => `, hold at ${e.station}`);
  return `take ${first.part} from ${first.station} to ${last.station}${held.join('')}`;
}
