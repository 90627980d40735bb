/** What the floor's run needs of a robot, whatever its program. */
import { CALL_RULES, type CallRule } from '../model/call-rules.js';
import type { RobotClock } from './robot-clock.js';

/**
 * What the robot is programmed to do. `order`: the best sequence, passing over an act whose station is stopped, in
 * changeover, out of parts or full, until the sequence comes there again. `strict`: the same, but it waits at each act
 * whatever happens. The others answer calls by a rule, without a sequence.
 */
export const PROGRAMS = ['order', 'strict', ...CALL_RULES] as const;
export type Program = (typeof PROGRAMS)[number];

export function isCallRule(program: Program): program is CallRule {
  return program !== 'order' && program !== 'strict';
}

export interface FloorRobot {
  readonly clock: RobotClock;
  /** Waiting for something it can do. */
  readonly idle: boolean;
  /** Waiting for its time, with its timer set. */
  readonly resting: boolean;
  /** Acts if it can; false = it goes on waiting. */
  decide(): boolean;
  /** Its timer has run out. */
  onTimer(): void;
  partsInHand(): number;
  /** Mean time of a cycle of the sequence since the last call of clearPeriods; NaN without a sequence. */
  periodS(): number;
  clearPeriods(): void;
  /** What it waits for, as a sentence, when nothing can happen any more. */
  waitText(): string;
  /** Its state, for telling moments apart; times count from now. */
  signature(push: (value: number) => void, nowS: number): void;
}

export const PROGRAM_TEXTS: Readonly<Record<Program, string>> = {
  order: 'the best sequence, passing over what is stopped, in changeover, out of parts or full (`order`)',
  strict: 'the best sequence, waiting at each act whatever happens (`strict`)',
  first: 'first come, first served (`first`)',
  nearest: 'the nearest call (`nearest`)',
  longest: 'the call of the longest cycle (`longest`)',
};
