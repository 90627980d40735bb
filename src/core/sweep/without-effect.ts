/** Inputs of a sweep that change none of its figures, said with the reason where the cell gives it. */
import type { Cell } from '../model/cell.js';
import { travelLookup } from '../model/travel.js';
import type { Figure } from './result-figure.js';

interface SweptPoint {
  /** One value an input. */
  readonly values: readonly string[];
  readonly figures: readonly Figure[];
}

/** @param cell as it stands before the sweep @returns a sentence for each input whose values were told apart and made no difference */
export function withoutEffect(paths: readonly string[], points: readonly SweptPoint[], cell: Cell): string[] {
  return paths.flatMap((path, axis) => {
    if (!isTried(points, axis) || changesAny(points, axis)) return [];
    const why = reasonOf(path, cell);
    return [`${path} changes none of these figures at any of its values${why === null ? '' : `: ${why}`}.`];
  });
}

const others = ({ values }: SweptPoint, axis: number): string =>
  JSON.stringify(values.filter((_, k) => k !== axis));

/** Two points that differ in this input alone. */
function isTried(points: readonly SweptPoint[], axis: number): boolean {
  return new Set(points.map((point) => others(point, axis))).size < points.length;
}

function changesAny(points: readonly SweptPoint[], axis: number): boolean {
  const first = new Map<string, string>();
  return points.some((point) => {
    const [key, found] = [others(point, axis), JSON.stringify(point.figures)];
    if (!first.has(key)) first.set(key, found);
    return first.get(key) !== found;
  });
}

/** Times of the robot's trips come from three places, of which the first that has one counts. */
function reasonOf(path: string, { stations, travel, robot }: Cell): string | null {
  const used = /^robot\.travel_s$/.test(path)
    ? (['travel_s'] as const)
    : /^robot\.(speed_m_s|accel_m_s2)$|^stations\.[^.]+\.[xy]_m$/.test(path)
      ? (['positions'] as const)
      : null;
  if (used === null) return null;
  const lookup = travelLookup({ stations, travel, robot });
  const sources = new Set(
    stations.flatMap((a) => stations.map((b) => (a === b ? undefined : lookup(a.name, b.name)?.source))),
  );
  if (used.some((source) => sources.has(source))) return null;
  const fromTable = sources.has('table') || sources.has('reverse row');
  const from = [
    ...(fromTable ? ['travel.csv'] : []),
    ...(sources.has('positions') ? ['the positions of stations.csv with speed_m_s'] : []),
    ...(sources.has('travel_s') ? ['travel_s of robot.csv'] : []),
  ];
  return `the time of every trip comes from ${from.join(' and ')}`;
}
