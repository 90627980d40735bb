/** Blocks of a document in the terminal: the same words and tables as on the page; a chart is its finding, with its figures. */
import pc from 'picocolors';
import { bullets, paragraph } from '../paragraph.js';
import type { TextStyle } from '../text-style.js';
import { textTable } from '../text-table.js';
import type { Block, ChartBlock } from './blocks.js';

/** @returns each piece with a line break at its end; a note stands close under its table */
export function blocksText(blocks: readonly Block[], style: TextStyle): string {
  return blocks
    .map((block, k) => {
      const gap = k > 0 && !(block.kind === 'paragraph' && block.tone === 'note') ? '\n' : '';
      return `${gap}${blockText(block, style)}`;
    })
    .join('');
}

function blockText(block: Block, style: TextStyle): string {
  const titled = (text: string) => `${pc.createColors(style.colour).bold(text)}\n`;
  switch (block.kind) {
    case 'section':
    case 'subsection':
      return titled(block.title);
    case 'paragraph':
      return `${paragraph(block.text, style.columns)}\n`;
    case 'list':
      return `${bullets(block.items, style.columns)}\n`;
    case 'table':
      return `${titled(paragraph(block.caption, style.columns))}${textTable(block.columns, block.rows, style)}\n`;
    case 'figures':
      return `${bullets(
        block.items.map(({ value, what, sure }) => `${value} ${what} (${sure})`),
        style.columns,
      )}\n`;
    case 'beside':
      return blocksText(block.pieces.flat(), style);
    case 'fold':
      return `${titled(block.title)}${blocksText(block.blocks, style)}`;
    case 'chart':
      return chartText(block, style);
  }
}

/** Rows of a chart's figures that a terminal shows; more of them are for the eye. */
const MOST_FIGURES = 16;

function chartText({ title, description, data }: ChartBlock, style: TextStyle): string {
  const words = `${paragraph(`${title}. ${description}`, style.columns)}\n`;
  return data && data.rows.length <= MOST_FIGURES ? `${words}\n${blockText(data, style)}` : words;
}
