// Reading a drawn chart back: which of its two drawings, which marks, what they say.
import { expect } from 'vitest';
import type { Block, ChartBlock } from '../../../src/render/document/blocks.js';

/** Fails where there is no chart. */
export function drawn(block: Block | null): ChartBlock {
  expect(block?.kind, block && 'text' in block ? block.text : 'no block').toBe('chart');
  return block as ChartBlock;
}

export type Kind = 'wide' | 'narrow';

/** One of the two drawings. */
export function drawing(block: Block | null, kind: Kind = 'wide'): string {
  return new RegExp(`<svg[^>]*class="${kind}"[\\s\\S]*?</svg>`).exec(drawn(block).svg)![0];
}

export interface DrawnMark {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}

/** Elements of a class, in order. */
export function marks(svg: string, className: string): DrawnMark[] {
  const found: DrawnMark[] = [];
  for (const [, name, list] of svg.matchAll(/<([a-z]+)((?: [a-zA-Z0-9-]+="[^"]*")*)\/?>/g)) {
    const attributes = Object.fromEntries(
      [...list!.matchAll(/ ([a-zA-Z0-9-]+)="([^"]*)"/g)].map((match) => [match[1]!, match[2]!]),
    );
    if ((attributes.class ?? '').split(' ').includes(className)) found.push({ name: name!, attributes });
  }
  return found;
}

export const numberOf = (mark: DrawnMark, attribute: string): number => Number(mark.attributes[attribute]);

/** Elements and attributes that charts are made of: nothing that loads, runs, or has to be unique in a page. */
const ATTRIBUTE =
  '(?:viewBox|class|role|data-row|aria-label|tabindex|transform|text-anchor|stroke-width|width|height|d|r|[xy][12]?|c[xy])';
const KNOWN_TAG = new RegExp(
  `</?(?:svg|g|line|rect|circle|path|text|title)(?: ${ATTRIBUTE}="[^"<>]*")*/?>`,
  'g',
);

/** What has to hold of every chart, whatever it shows. */
export function expectSound(block: Block): void {
  if (block.kind !== 'chart') {
    expect(block.kind).toBe('paragraph');
    return;
  }
  expect(block.svg).not.toMatch(/NaN|Infinity|undefined/);
  expect(JSON.stringify(block.data ?? {})).not.toMatch(/NaN|Infinity|undefined/);
  expect(block.svg.replace(KNOWN_TAG, '')).not.toMatch(/[<>]/);
  for (const kind of ['wide', 'narrow'] as const) {
    const svg = drawing(block, kind);
    const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number);
    const amiss = (attributes: RegExp, isRight: (value: number) => boolean): string[] =>
      [...svg.matchAll(attributes)].flatMap(([text, value]) => (isRight(Number(value)) ? [] : [text]));
    expect(
      amiss(/ (?:x|x1|x2|cx|width)="(-?[\d.e+-]+)"/g, (value) => within(value, width!)),
      kind,
    ).toEqual([]);
    expect(
      amiss(/ (?:y|y1|y2|cy|height)="(-?[\d.e+-]+)"/g, (value) => within(value, height!)),
      kind,
    ).toEqual([]);
    expect(
      amiss(/ (?:width|height|r|stroke-width)="([^"]*)"/g, (value) => value >= 0),
      kind,
    ).toEqual([]);
  }
  const { columns = [], rows = [] } = block.data ?? {};
  expect(rows.filter((row) => row.length !== columns.length)).toEqual([]);
}

const within = (value: number, most: number): boolean => value >= -0.5 && value <= most + 0.5;

/** Values of the scale along the lower edge, as places; the outermost may be moved inward, so two inner ones count. */
export function scaleBelow(svg: string): (value: number) => number {
  const rows = new Map<string, { at: number; value: number }[]>();
  for (const [, x, y, text] of svg.matchAll(
    /<text x="([\d.-]+)" y="([\d.-]+)" class="tick" text-anchor="middle">(-?[\d.,]+)</g,
  ))
    rows.set(y!, [...(rows.get(y!) ?? []), { at: Number(x), value: plainNumber(text!) }]);
  const ticks = [...rows.values()].reduce((a, b) => (b.length > a.length ? b : a));
  return through(ticks.length > 3 ? ticks.slice(1, -1) : ticks);
}

/** Values of a scale along the left edge, as places. */
export function scaleBeside(svg: string): (value: number) => number {
  const ticks = [
    ...svg.matchAll(/<text x="[\d.-]+" y="([\d.-]+)" class="tick" text-anchor="end">(-?[\d.,]+)</g),
  ].map((match) => ({ at: Number(match[1]) - 4, value: plainNumber(match[2]!) }));
  return through(ticks);
}

const plainNumber = (text: string): number => Number(text.replaceAll(',', ''));

function through(
  ticks: readonly { readonly at: number; readonly value: number }[],
): (value: number) => number {
  const [first, last] = [ticks[0]!, ticks.at(-1)!];
  return (value) => first.at + ((value - first.value) * (last.at - first.at)) / (last.value - first.value);
}
