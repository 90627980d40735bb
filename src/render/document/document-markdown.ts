/** A document as Markdown; in place of a chart stands what it shows, in words. */
import { visibleText } from '../visible-text.js';
import type { Block, ChartBlock, Document, TableBlock } from './blocks.js';

/** Names from tables may hold anything: signs of Markdown and of terminals are made harmless. */
const safe = (text: string) => markdownText(visibleText(text));

export function documentMarkdown({ title, subtitle, blocks }: Document): string {
  return `${[`# ${safe(title)}`, safe(subtitle), ...blocks.map(blockMarkdown)].join('\n\n')}\n`;
}

function blockMarkdown(block: Block): string {
  switch (block.kind) {
    case 'section':
      return `## ${safe(block.title)}`;
    case 'subsection':
      return `### ${safe(block.title)}`;
    case 'paragraph':
      return block.tone === 'lead' ? `**${safe(block.text)}**` : safe(block.text);
    case 'list':
      return block.items.map((item) => `- ${safe(item)}`).join('\n');
    case 'table':
      return tableMarkdown(block);
    case 'figures':
      return block.items
        .map(({ value, what, sure }) => `- **${safe(value)}** ${safe(what)} (${safe(sure)})`)
        .join('\n');
    case 'beside':
      return block.pieces.flat().map(blockMarkdown).join('\n\n');
    case 'fold':
      return [`### ${safe(block.title)}`, ...block.blocks.map(blockMarkdown)].join('\n\n');
    case 'chart':
      return chartMarkdown(block);
  }
}

function chartMarkdown({ title, description, data }: ChartBlock): string {
  const words = `${safe(title)}. ${safe(description)}`;
  return data ? `${words}\n\n${tableMarkdown(data)}` : words;
}

function tableMarkdown({ caption, columns, rows }: TableBlock): string {
  const line = (cells: readonly string[]) => `| ${cells.map(safe).join(' | ')} |`;
  const rule = columns.map((column) => (column.align === 'right' ? '---:' : '---'));
  return [
    `*${safe(caption)}*`,
    '',
    line(columns.map((column) => column.heading)),
    `| ${rule.join(' | ')} |`,
    ...rows.map(line),
  ].join('\n');
}

/** Makes signs harmless that would break a table or a line. @example markdownText('mill_1|mill_2') // 'mill\\_1\\|mill\\_2' */
export function markdownText(text: string): string {
  return text.replace(/[\\|*_`<>[\]]/g, (sign) => `\\${sign}`).replace(/[\r\n]+/g, ' ');
}
