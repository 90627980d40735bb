/** A chart drawn once for wide pages and once for narrow ones, so that its texts can be read on either. */
import { type ChartBlock, note, type ParagraphBlock, type TableBlock } from '../document/blocks.js';
import { picture } from './svg.js';

/** Pixels across, at which texts have the size that the style gives them. */
export const WIDE = 740;
export const NARROW = 350;

export interface Drawing {
  readonly height: number;
  readonly content: readonly string[];
}

export interface ChartTexts {
  /** The finding, as a sentence without its full stop. */
  readonly title: string;
  readonly description: string;
  readonly note: string;
  /** The figures; none where a table beside the chart has them. */
  readonly data?: TableBlock | undefined;
}

interface Chart extends ChartTexts {
  readonly interactive?: boolean;
  /** @param width `WIDE` or `NARROW` */
  readonly draw: (width: number) => Drawing;
}

/** A chart, or one sentence that says why there is none. */
export type ChartOrReason = ChartBlock | ParagraphBlock;

export function chartOf({ title, description, note, data, interactive, draw }: Chart): ChartBlock {
  const drawn = ([WIDE, NARROW] as const).map((width) =>
    picture({
      width,
      kind: width === WIDE ? 'wide' : 'narrow',
      title,
      description,
      ...draw(width),
      ...(interactive ? { interactive } : {}),
    }),
  );
  const svg = drawn.join('\n');
  return {
    kind: 'chart',
    title,
    description,
    svg,
    note,
    ...(data === undefined ? {} : { data }),
    ...(interactive ? { interactive } : {}),
  };
}

export function noChart(reason: string): ParagraphBlock {
  return note(reason);
}
