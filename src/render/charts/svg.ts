/** Elements of a chart as text. Looks come from the classes of the page that holds it. */
import { line } from 'd3-shape';
import { escapeMarkup } from '../document/escape-markup.js';
import { textWidth } from './text-width.js';

export type Attributes = Readonly<Record<string, string | number>>;

/** Tenths of a unit are finer than any printer. */
export function place(value: number): number {
  return Math.round(value * 10) / 10;
}

export function element(name: string, attributes: Attributes, content = ''): string {
  const list = Object.entries(attributes).map(
    ([key, value]) => ` ${key}="${typeof value === 'number' ? place(value) : escapeMarkup(value)}"`,
  );
  return content === '' ? `<${name}${list.join('')}/>` : `<${name}${list.join('')}>${content}</${name}>`;
}

/** Which end of a text stands at its place; the start where nothing is said. */
export type Anchor = 'start' | 'middle' | 'end';

/** @param look classes of the style */
export function label(text: string, x: number, y: number, look = '', anchor?: Anchor): string {
  return textAt(escapeMarkup(text), x, y, look, anchor);
}

/** @param content with its markup */
export function textAt(content: string, x: number, y: number, look: string, anchor?: Anchor): string {
  const classes = look === '' ? {} : { class: look };
  const anchored = anchor === undefined ? {} : { 'text-anchor': anchor };
  return element('text', { x, y, ...classes, ...anchored }, content);
}

/** The words that show when the mark is pointed at, then the mark. */
export function titled(words: string, look: string, ...marks: readonly string[]): string {
  const title = element('title', {}, escapeMarkup(words));
  return element('g', look === '' ? {} : { class: look }, [title, ...marks].join(''));
}

/** A line through points. */
export function path<Point>(
  points: readonly Point[],
  x: (point: Point) => number,
  y: (point: Point) => number,
  look: string,
): string {
  const d = line<Point>().x(x).y(y).digits(1)([...points]);
  return element('path', { d: d ?? '', class: look });
}

/** A line down through the field at a value that is named beside it, to the left where the right lacks the room. */
export function flag(
  text: string,
  at: number,
  { from, to, textY, right }: { from: number; to: number; textY: number; right: number },
  look = 'strong over',
): string[] {
  const leftwards = at + 5 + textWidth(text, look.includes('tick') ? 12 : 13) > right;
  return [
    stroke(at, from, at, to, 'plan'),
    label(text, at + (leftwards ? -5 : 5), textY, look, leftwards ? 'end' : 'start'),
  ];
}

export function stroke(x1: number, y1: number, x2: number, y2: number, look: string, width?: number): string {
  const thick = width === undefined ? {} : { 'stroke-width': width };
  return element('line', { x1, y1, x2, y2, ...thick, class: look });
}

export function oblong(x: number, y: number, width: number, height: number, look: string): string {
  return element('rect', { x, y, width, height, class: look });
}

export function circle(cx: number, cy: number, r: number, look: string): string {
  return element('circle', { cx, cy, r, class: look });
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Which pages show it: charts are drawn once for wide pages and once for narrow ones. */
  readonly kind: 'wide' | 'narrow';
  readonly title: string;
  readonly description: string;
  /** Marks inside have names of their own and take the focus. */
  readonly interactive?: boolean;
  readonly content: readonly string[];
}

export function picture({ width, height, kind, title, description, interactive, content }: Picture): string {
  return element(
    'svg',
    {
      viewBox: `0 0 ${place(width)} ${place(height)}`,
      class: kind,
      role: interactive ? 'group' : 'img',
      'aria-label': `${title}. ${description}`,
    },
    `\n${content.join('\n')}\n`,
  );
}
