/** The state of a run as numbers, times counted from now; two moments alike have the same future. */
import type { FloorRun } from './floor-run.js';

const SAME_S = 1e-7;

export function floorState({ floor, robot }: Pick<FloorRun, 'floor' | 'robot'>): Float64Array {
  const values: number[] = [];
  const push = (value: number): void => {
    values.push(value);
  };
  floor.signature(push);
  robot.signature(push, floor.now);
  return Float64Array.from(values);
}

export function isAlike(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i] && !(Math.abs(a[i]! - b[i]!) <= SAME_S)) return false;
  return true;
}
