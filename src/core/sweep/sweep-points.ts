/** The points of a sweep, numbered from 1 with the last input running fastest, and their split into shards. */
import type { SweepAxis } from './sweep-axis.js';

export interface SweepPoint {
  readonly number: number;
  /** One value an axis. */
  readonly values: readonly string[];
}

export interface Shard {
  /** From 1 to `of`. */
  readonly part: number;
  readonly of: number;
}

export function pointCount(axes: readonly SweepAxis[]): number {
  return axes.reduce((n, axis) => n * axis.values.length, 1);
}

/** The points of a shard: every `of`-th, so that all shards have like work. */
export function sweepPoints(axes: readonly SweepAxis[], shard: Shard = { part: 1, of: 1 }): SweepPoint[] {
  const points: SweepPoint[] = [];
  for (let index = shard.part - 1; index < pointCount(axes); index += shard.of)
    points.push({ number: index + 1, values: valuesAt(axes, index) });
  return points;
}

function valuesAt(axes: readonly SweepAxis[], index: number): string[] {
  let rest = index;
  return [...axes]
    .reverse()
    .map(({ values }) => {
      const value = values[rest % values.length]!;
      rest = Math.floor(rest / values.length);
      return value;
    })
    .reverse();
}
