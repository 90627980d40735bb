// The most that any sequence of a cell makes, asked for once.
import type { Cell } from '../../src/core/model/cell.js';
import {
  type EverySequence,
  type EverySequenceLimits,
  ListedStates,
} from '../../src/core/schedule/every-sequence/every-sequence.js';
import type { Goal } from '../../src/core/schedule/plan/weights.js';
import { type PlaySpace, playSpace } from '../../src/core/schedule/play/play-space.js';

export function everySequence(
  cell: Cell,
  goal: Goal,
  limits: EverySequenceLimits,
  space: PlaySpace = playSpace(cell, goal),
): EverySequence | null {
  return new ListedStates(space).most(limits);
}
