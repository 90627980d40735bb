/**
 * The smallest circle round all stations: how far a robot that stands in its middle has to reach. By trying every pair
 * and every three of them (elementary geometry: the circle is fixed by two points across it, or by three on it).
 */
import type { Spot } from './positions.js';

export interface Circle extends Spot {
  readonly radiusM: number;
}

/** More stations would take too long; a robot reaches fewer. */
const MOST_SPOTS = 40;
const TOLERANCE_M = 1e-9;

/** @returns null without stations or with more than 40 */
export function leastCircle(spots: readonly Spot[]): Circle | null {
  if (spots.length === 0 || spots.length > MOST_SPOTS) return null;
  let best: Circle | null = spots.length === 1 ? { ...spots[0]!, radiusM: 0 } : null;
  const offer = (circle: Circle | null): void => {
    if (circle === null || (best !== null && circle.radiusM >= best.radiusM)) return;
    if (spots.every((spot) => distanceM(circle, spot) <= circle.radiusM + TOLERANCE_M)) best = circle;
  };
  spots.forEach((a, i) => {
    spots.slice(i + 1).forEach((b, j) => {
      offer(circleOfTwo(a, b));
      for (const c of spots.slice(i + j + 2)) offer(circleOfThree(a, b, c));
    });
  });
  return best;
}

export function distanceM(a: Spot, b: Spot): number {
  return Math.hypot(a.xM - b.xM, a.yM - b.yM);
}

function circleOfTwo(a: Spot, b: Spot): Circle {
  return { xM: (a.xM + b.xM) / 2, yM: (a.yM + b.yM) / 2, radiusM: distanceM(a, b) / 2 };
}

/** null where the three lie on a line. */
function circleOfThree(a: Spot, b: Spot, c: Spot): Circle | null {
  const [bx, by] = [b.xM - a.xM, b.yM - a.yM];
  const [cx, cy] = [c.xM - a.xM, c.yM - a.yM];
  const twice = 2 * (bx * cy - by * cx);
  if (Math.abs(twice) < TOLERANCE_M) return null;
  const x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / twice;
  const y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / twice;
  return { xM: a.xM + x, yM: a.yM + y, radiusM: Math.hypot(x, y) };
}
