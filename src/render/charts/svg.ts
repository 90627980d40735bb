/** Elements of a chart as text. Looks come from the classes of the page that holds it. */
import { escapeMarkup } from '../document/escape-markup.js';

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

/** @param more such as a class or `text-anchor` */
export function label(text: string, x: number, y: number, more: Attributes = {}): string {
  return element('text', { x, y, ...more }, escapeMarkup(text));
}

export function stroke(x1: number, y1: number, x2: number, y2: number, kind: string): string {
  return element('line', { x1, y1, x2, y2, class: kind });
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
