/** From metres on the floor to pixels of the drawing and back. */
import type { Spot } from './positions.js';

export interface View {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly perM: number;
  /** The place in the middle of the drawing. */
  readonly middle: Spot;
}

const [MARGIN_PX, MOST_PER_M, LEAST_SPAN_M] = [70, 200, 1];

/** @param zoom 1 shows all stations */
export function viewOf(spots: readonly Spot[], widthPx: number, heightPx: number, zoom: number): View {
  const [xs, ys] = [spots.map(({ xM }) => xM), spots.map(({ yM }) => yM)];
  const span = (all: readonly number[]): readonly [number, number] =>
    all.length === 0 ? [0, 0] : [Math.min(...all), Math.max(...all)];
  const [[x0, x1], [y0, y1]] = [span(xs), span(ys)];
  const room = (px: number, metres: number): number =>
    Math.max(40, px - 2 * MARGIN_PX) / Math.max(LEAST_SPAN_M, metres);
  const perM = Math.min(MOST_PER_M, room(widthPx, x1 - x0), room(heightPx, y1 - y0)) * zoom;
  return { widthPx, heightPx, perM, middle: { xM: (x0 + x1) / 2, yM: (y0 + y1) / 2 } };
}

/** y runs up on the floor and down in the drawing. */
export function toPx({ widthPx, heightPx, perM, middle }: View, { xM, yM }: Spot): { x: number; y: number } {
  return { x: widthPx / 2 + (xM - middle.xM) * perM, y: heightPx / 2 - (yM - middle.yM) * perM };
}

export function toMetres({ widthPx, heightPx, perM, middle }: View, x: number, y: number): Spot {
  return { xM: middle.xM + (x - widthPx / 2) / perM, yM: middle.yM - (y - heightPx / 2) / perM };
}
