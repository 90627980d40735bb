/**
 * The point at which a function of a few numbers is least, without its derivatives: the simplex method of J. A. Nelder and
 * R. Mead, The Computer Journal 7, 1965, with their own coefficients (reflect 1, expand 2, contract and shrink 1/2).
 * Deterministic; finds a local least.
 */

const MOST_STEPS = 600;
const CLOSE = 1e-9;

interface Corner {
  readonly at: readonly number[];
  readonly value: number;
}

/**
 * @param f may be infinite where a point is not allowed, but not at `start`
 * @param start the first corner
 * @param step how far the other first corners lie from it, along each axis
 * @returns the best point found
 */
export function simplexSearch(
  f: (at: readonly number[]) => number,
  start: readonly number[],
  step: number,
): readonly number[] {
  const corner = (at: readonly number[]): Corner => ({ at, value: f(at) });
  let corners = [
    corner(start),
    ...start.map((_, axis) => corner(start.map((v, i) => (i === axis ? v + step : v)))),
  ].sort(byValue);
  for (let count = 0; count < MOST_STEPS && !isClose(corners); count++)
    corners = nextSimplex(corners, corner);
  return corners[0]!.at;
}

function nextSimplex(corners: readonly Corner[], corner: (at: readonly number[]) => Corner): Corner[] {
  const best = corners[0]!;
  const worst = corners.at(-1)!;
  const others = corners.slice(0, -1);
  const centre = best.at.map((_, i) => others.reduce((sum, c) => sum + c.at[i]!, 0) / others.length);
  const along = (share: number): Corner => corner(centre.map((c, i) => c + share * (c - worst.at[i]!)));
  const taken = (next: Corner): Corner[] => [...others, next].sort(byValue);
  const reflected = along(1);
  if (reflected.value < best.value) {
    const expanded = along(2);
    return taken(expanded.value < reflected.value ? expanded : reflected);
  }
  if (reflected.value < others.at(-1)!.value) return taken(reflected);
  const contracted = along(reflected.value < worst.value ? 0.5 : -0.5);
  if (contracted.value < Math.min(reflected.value, worst.value)) return taken(contracted);
  const towardsBest = (c: Corner): Corner => corner(c.at.map((v, i) => (v + best.at[i]!) / 2));
  return [best, ...corners.slice(1).map(towardsBest)].sort(byValue);
}

function byValue(a: Corner, b: Corner): number {
  return a.value === b.value ? 0 : a.value - b.value;
}

function isClose(corners: readonly Corner[]): boolean {
  const [best, worst] = [corners[0]!, corners.at(-1)!];
  const apart = worst.value - best.value;
  const width = Math.max(...worst.at.map((v, i) => Math.abs(v - best.at[i]!)));
  return apart <= CLOSE * (1 + Math.abs(best.value)) && width < 1e-4;
}
