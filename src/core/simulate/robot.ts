/** What the simulation's loop needs of a robot, whatever it goes by. */
import type { RobotClock } from './robot-clock.js';

export interface Robot {
  readonly clock: RobotClock;
  /** Waiting for something it can do. */
  readonly idle: boolean;
  /** Acts if it can; false = it goes on waiting. */
  decide(): boolean;
  /** Its timer has run out. */
  onTimer(): void;
  partsInHand(): number;
  /** Mean time of a round of the fixed order since the last call of clearPeriods; NaN without a fixed order. */
  periodS(): number;
  clearPeriods(): void;
  /** What it waits for, as a sentence, when nothing can happen any more. */
  waitText(): string;
}
