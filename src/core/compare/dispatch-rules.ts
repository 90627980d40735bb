/** The ways in which the simulated robot can choose its next move. */
import type { DispatchRule } from '../simulate/dispatch-robot.js';

export const DISPATCH_RULES = ['first', 'nearest', 'longest', 'order'] as const satisfies readonly (
  | DispatchRule
  | 'order'
)[];
