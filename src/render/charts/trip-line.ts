/** A trip of the robot on a plan: a bent line with its direction, so that trips there and back lie apart. */
import type { Trip } from './cell-plan-chart.js';
import type { NameSpot, Point } from './plan-names.js';
import { element, place } from './svg.js';

const RADIUS = 15;
const [LEAST_WAY, MOST_WAY] = [1.2, 5];

/** A bent line from one station's edge to the other's, with its direction in the middle. */
export function tripLine(trip: Trip, spots: readonly NameSpot[], most: number): string {
  const [a, b] = [trip.from, trip.to].map((name) => spots.find((s) => s.name === name)!);
  const length = Math.hypot(b!.x - a!.x, b!.y - a!.y);
  if (length < 1) return '';
  const [ux, uy] = [(b!.x - a!.x) / length, (b!.y - a!.y) / length];
  const bend = Math.min(34, 0.11 * length + 5) * (trip.isLoaded ? 1 : 1.9);
  // To the left of the direction as seen from above: y runs down the page.
  const [cx, cy] = [(a!.x + b!.x) / 2 + uy * bend, (a!.y + b!.y) / 2 - ux * bend];
  const edge = Math.min(RADIUS, length / 3);
  const from = towards(a!, cx, cy, edge);
  const to = towards(b!, cx, cy, edge);
  const width = LEAST_WAY + ((MOST_WAY - LEAST_WAY) * (trip.times - 1)) / Math.max(1, most - 1);
  const path = `M${place(from.x)} ${place(from.y)}Q${place(cx)} ${place(cy)} ${place(to.x)} ${place(to.y)}`;
  const [mx, my] = [(from.x + 2 * cx + to.x) / 4, (from.y + 2 * cy + to.y) / 4];
  return element(
    'g',
    { class: 'way' },
    `${element('path', { d: path, 'stroke-width': width, class: trip.isLoaded ? 'trip' : 'trip gap' })}${arrow(mx, my, ux, uy, 4 + width * 0.7)}`,
  );
}

function towards(from: Point, x: number, y: number, by: number): Point {
  const length = Math.hypot(x - from.x, y - from.y) || 1;
  return { x: from.x + ((x - from.x) / length) * by, y: from.y + ((y - from.y) / length) * by };
}

function arrow(x: number, y: number, ux: number, uy: number, size: number): string {
  const point = (along: number, across: number) =>
    `${place(x + ux * along - uy * across)} ${place(y + uy * along + ux * across)}`;
  return element('path', {
    d: `M${point(size, 0)}L${point(-size, size * 0.8)}L${point(-size, -size * 0.8)}Z`,
    class: 'head',
  });
}
