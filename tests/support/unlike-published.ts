// The cells of unlike-machines.json: independent machines, one hand, with the most that any sequence makes of them.
import { readFileSync } from 'node:fs';
import type { Cell } from '../../src/core/model/cell.js';
import { unlikeCell } from './unlike-cells.js';

export interface UnlikePublished {
  readonly id: string;
  readonly machines: number;
  readonly cycleS: readonly number[];
  readonly loadS: readonly number[];
  readonly unloadS: readonly number[];
  readonly fetchS: number;
  readonly putS: number;
  readonly travelS: readonly (readonly number[])[];
  /** Null where it has too many states. */
  readonly bestMachineSecondsPerS: number | null;
  /** A robot that takes the part of the machine that called first away and loads that machine again, to 0.01%. */
  readonly firstCallMachineSecondsPerS: number;
}

export const unlikePublished: readonly UnlikePublished[] = JSON.parse(
  readFileSync(new URL('../reference/recomputed/unlike-machines.json', import.meta.url), 'utf8'),
).cells;

export function publishedCell(cell: UnlikePublished, hands: 1 | 2 = 1): Cell {
  return unlikeCell(
    {
      travel: cell.travelS,
      fetchS: cell.fetchS,
      putS: cell.putS,
      loadS: [0, ...cell.loadS],
      unloadS: [0, ...cell.unloadS],
      cycleS: [0, ...cell.cycleS],
    },
    hands,
  );
}
