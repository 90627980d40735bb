/** A document as one HTML page that needs nothing else: no network, no script, no style from elsewhere. */
import type { Block, ChartBlock, Document, TableBlock } from './blocks.js';
import { DOCUMENT_STYLE, DOCUMENT_STYLE_HASH } from './document-style.js';
import { escapeMarkup } from './escape-markup.js';

/** Nothing may be loaded or run; the one style sheet is allowed by its hash. */
const POLICY = `default-src 'none'; style-src '${DOCUMENT_STYLE_HASH}'; base-uri 'none'; form-action 'none'`;

export function documentHtml({ title, subtitle, blocks }: Document): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeMarkup(title)}</title>
<style>${DOCUMENT_STYLE}</style>
</head>
<body>
<header>
<h1>${escapeMarkup(title)}</h1>
<p>${escapeMarkup(subtitle)}</p>
</header>
<main>
${blocks.map((block, k) => blockHtml(block, `b${k + 1}`)).join('\n')}
</main>
</body>
</html>
`;
}

/** @param id names the block within the page */
function blockHtml(block: Block, id: string): string {
  switch (block.kind) {
    case 'section':
      return `<h2${block.newPage ? ' class="page"' : ''}>${escapeMarkup(block.title)}</h2>`;
    case 'subsection':
      return `<h3>${escapeMarkup(block.title)}</h3>`;
    case 'paragraph':
      return `<p${block.tone ? ` class="${block.tone}"` : ''}>${escapeMarkup(block.text)}</p>`;
    case 'list':
      return `<ul>\n${block.items.map((item) => `<li>${escapeMarkup(item)}</li>`).join('\n')}\n</ul>`;
    case 'table':
      return tableHtml(block, id);
    case 'chart':
      return chartHtml(block, id);
  }
}

/** A wide table scrolls in its own frame, by keyboard too. */
function tableHtml({ caption, columns, rows, prose, wide }: TableBlock, id: string): string {
  const side = (k: number) => (columns[k]?.align === 'right' ? ' class="n"' : '');
  const head = columns
    .map((column, k) => `<th scope="col"${side(k)}>${escapeMarkup(column.heading)}</th>`)
    .join('');
  const body = rows.map((row) => {
    const cells = row.map((cell, k) =>
      k === 0
        ? `<th scope="row"${side(k)}>${escapeMarkup(cell)}</th>`
        : `<td${side(k)}>${escapeMarkup(cell)}</td>`,
    );
    return `<tr>${cells.join('')}</tr>`;
  });
  const look = [prose ? 'prose' : '', wide ? 'wide' : ''].filter((name) => name !== '').join(' ');
  return `<p class="caption" id="${id}">${escapeMarkup(caption)}</p>
<div class="frame" role="region" tabindex="0" aria-labelledby="${id}">
<table aria-labelledby="${id}"${look === '' ? '' : ` class="${look}"`}>
<thead><tr>${head}</tr></thead>
<tbody>
${body.join('\n')}
</tbody>
</table>
</div>`;
}

function chartHtml({ title, svg, note, data }: ChartBlock, id: string): string {
  const figures = data
    ? `\n<details>\n<summary>The figures as a table</summary>\n${tableHtml(data, `${id}t`)}\n</details>`
    : '';
  return `<figure>
<figcaption id="${id}">${escapeMarkup(title)}</figcaption>
<div class="frame" role="region" tabindex="0" aria-labelledby="${id}">
${svg}
</div>
<p class="note">${escapeMarkup(note)}</p>${figures}
</figure>`;
}
