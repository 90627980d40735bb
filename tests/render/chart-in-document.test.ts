// A chart in a document: the picture with its finding and its figures behind it, on a page and in Markdown.
import { describe, expect, test } from 'vitest';
import type { ChartBlock } from '../../src/render/document/blocks.js';
import { documentHtml } from '../../src/render/document/document-html.js';
import { documentMarkdown } from '../../src/render/document/document-markdown.js';

const chart: ChartBlock = {
  kind: 'chart',
  title: 'Two is more than one',
  description: 'One, then two.',
  svg: '<svg></svg>',
  note: 'Counted.',
  data: { kind: 'table', caption: 'Counts', columns: [{ heading: 'what' }], rows: [['<one>'], ['two']] },
};
const page = (blocks: readonly ChartBlock[]) => ({ title: 't', subtitle: 's', blocks });

describe('on a page', () => {
  const html = documentHtml(page([chart, chart]));

  test('the figures stand in a table that opens', () => {
    const details = [...html.matchAll(/<details>([\s\S]*?)<\/details>/g)].map((match) => match[1]!);
    expect(details).toHaveLength(2);
    expect(details[0]).toContain('<summary>The figures as a table</summary>');
    expect(details[0]).toContain('<th scope="row">&lt;one&gt;</th>');
  });

  test('names of charts and tables are unique', () => {
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]!);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, id] of html.matchAll(/aria-labelledby="([^"]+)"/g)) expect(ids).toContain(id);
  });
});

test('in Markdown the words stand first, then the table', () => {
  expect(documentMarkdown(page([chart]))).toContain(
    'Two is more than one. One, then two.\n\n*Counts*\n\n| what |\n| --- |\n| \\<one\\> |\n| two |',
  );
});
