/** A stretch of time, or a share of it, as a bar whose ink tells what goes on, with and without colour. */
import { oblong, stroke } from './svg.js';

export type Mark =
  | 'work'
  | 'robot'
  | 'carry'
  | 'go'
  | 'held'
  | 'wait'
  | 'stop'
  | 'planned'
  | 'filling'
  | 'stored'
  | 'idle'
  | 'empty';

/** @returns the bar in the frame given by its left top corner and its size */
export function bar(mark: Mark, x: number, y: number, width: number, height: number): string {
  const middle = y + height / 2;
  const line = (kind: string, at = middle) => stroke(x, at, x + width, at, kind);
  const box = (kind: string, share = 1) =>
    oblong(x, middle - (height * share) / 2, width, height * share, kind);
  const hatched = (of: string, share = 1) =>
    stroke(x, middle, x + width, middle, `hatch ${of}`, height * share);
  switch (mark) {
    case 'work':
      return box('work');
    case 'robot':
      return box('robot');
    case 'carry':
      return box('robot', 0.42);
    case 'go':
      return line('go');
    case 'held':
      return `${box('bare')}${hatched('of-robot')}`;
    case 'wait':
      return `${box('box-wait')}${stipple(x, y, width, height, 'of-wait')}`;
    case 'stop':
      return `${box('box-stop')}${hatched('of-stop')}`;
    case 'planned':
      return `${box('box-stop')}${stipple(x, y, width, height, 'of-stop')}`;
    case 'filling':
      return hatched('of-work', 0.5);
    case 'stored':
      return `${box('bare', 0.5)}`;
    case 'idle':
      return stipple(x, middle - 2, width, 4, 'of-robot');
    case 'empty':
      return line('bare', y + height);
  }
}

const DOT_ROWS_EVERY = 5;

function stipple(x: number, y: number, width: number, height: number, of: string): string {
  const rows = Math.max(1, Math.round(height / DOT_ROWS_EVERY));
  // Dots have round ends: they begin half a dot inside.
  const [from, to] = [x + Math.min(1.6, width / 2), x + Math.max(width - 1.4, width / 2 + 0.1)];
  return Array.from({ length: rows }, (_, k) => {
    const at = y + ((k + 0.5) * height) / rows;
    return stroke(from, at, to, at, `stipple ${of}`);
  }).join('');
}
