/** A document as one HTML page that needs nothing else: no network, no style or script from elsewhere. */

import { sha256 } from '@noble/hashes/sha2';
import type { BesideBlock, Block, ChartBlock, Document, InnerBlock, TableBlock } from './blocks.js';
import { DOCUMENT_STYLE } from './document-style.js';
import { escapeMarkup } from './escape-markup.js';

/**
 * @param script the page's own script, a module that loads nothing; the page is whole without it. Nothing else may run
 *   or be loaded: style and script are let through by their hashes alone
 * @throws RangeError for a script that would end its own tag
 */
export function documentHtml(document: Document, script = ''): string {
  const { title, subtitle, contents, blocks } = document;
  if (/<\/script|<!--/i.test(script)) throw new RangeError('the script of a page must not hold an end tag');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policyText(script)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeMarkup(title)}</title>
<style>${DOCUMENT_STYLE}</style>
</head>
<body>
${contents ? '<a class="skip" href="#content">Skip to the content</a>\n' : ''}<header>
<h1>${escapeMarkup(title)}</h1>
<p>${escapeMarkup(subtitle)}</p>
</header>
<main id="content">
${sectionsHtml(blocks, contents === true)}
</main>${script === '' ? '' : `\n<script type="module">${script}</script>`}
</body>
</html>
`;
}

function policyText(script: string): string {
  const run = script === '' ? '' : ` script-src '${policyHash(script)}';`;
  return `default-src 'none'; style-src '${policyHash(DOCUMENT_STYLE)}';${run} base-uri 'none'; form-action 'none'`;
}

function contentsHtml(blocks: readonly Block[]): string {
  const links = sectionsOf(blocks).flatMap(({ title, id }) =>
    title === null ? [] : [`<li><a href="#${id}">${inline(title)}</a></li>`],
  );
  return `<nav aria-labelledby="contents">
<h2 id="contents">Contents</h2>
<ol>
${links.join('\n')}
</ol>
</nav>`;
}

interface Section {
  /** Names the section within the page. */
  readonly id: string;
  /** null for what stands before the first section. */
  readonly title: string | null;
  readonly newPage: boolean;
  readonly blocks: InnerBlock[];
}

function sectionsOf(blocks: readonly Block[]): Section[] {
  const sections: Section[] = [];
  for (const block of blocks) {
    const id = `s${sections.length + 1}`;
    if (block.kind === 'section')
      sections.push({ id, title: block.title, newPage: block.newPage === true, blocks: [] });
    else {
      if (sections.length === 0) sections.push({ id, title: null, newPage: false, blocks: [] });
      sections.at(-1)!.blocks.push(block);
    }
  }
  return sections;
}

/** The list of sections comes after what stands before the first of them. */
function sectionsHtml(blocks: readonly Block[], contents: boolean): string {
  const sections = sectionsOf(blocks);
  const list = contents ? `\n${contentsHtml(blocks)}` : '';
  const first = sections[0]?.title === null;
  return `${first ? '' : `${list.trimStart()}\n`}${sections
    .map(({ id, title, newPage, blocks: within }) => {
      const content = blocksHtml(within, id);
      if (title === null) return `${content}${list}`;
      return `<section aria-labelledby="${id}">
<h2 id="${id}"${newPage ? ' class="page"' : ''}>${inline(title)}</h2>
${content}
</section>`;
    })
    .join('\n')}`;
}

/**
 * Blocks as a piece of a page that has the style of documents.
 * @param id begins the names of the blocks
 */
export function blocksHtml(blocks: readonly InnerBlock[], id: string): string {
  return blocks.map((block, k) => blockHtml(block, `${id}-${k + 1}`)).join('\n');
}

/** Text with its words of the command line set apart, and no line break inside a number such as 2026-118. */
function inline(text: string): string {
  return escapeMarkup(text)
    .replace(/\b[\d.]*\d-\d[\d.:-]*/g, (number) =>
      /\d{3}/.test(number) ? `<span class="whole">${number}</span>` : number,
    )
    .replace(/`([^`]+)`/g, '<code>$1</code>');
}

/** @param id names the block within the page */
function blockHtml(block: InnerBlock, id: string): string {
  switch (block.kind) {
    case 'subsection':
      return `<h3>${inline(block.title)}</h3>`;
    case 'paragraph':
      return `<p${block.tone ? ` class="${block.tone}"` : ''}>${inline(block.text)}</p>`;
    case 'list':
      return `<ul>\n${block.items.map((item) => `<li>${inline(item)}</li>`).join('\n')}\n</ul>`;
    case 'table':
      return tableHtml(block, id);
    case 'figures':
      return `<dl class="figures">\n${block.items
        .map(
          ({ value, what, sure }) =>
            `<div><dt>${inline(what)}</dt><dd class="value">${inline(value)}</dd><dd class="note">${inline(sure)}</dd></div>`,
        )
        .join('\n')}\n</dl>`;
    case 'beside':
      return besideHtml(block, id);
    case 'fold':
      return `<details class="fold">\n<summary>${inline(block.title)}</summary>\n${blocksHtml(block.blocks, id)}\n</details>`;
    case 'chart':
      return chartHtml(block, id);
  }
}

function besideHtml({ pieces, even }: BesideBlock, id: string): string {
  const columns = pieces.map((blocks, k) => `<div>\n${blocksHtml(blocks, `${id}-${k + 1}`)}\n</div>`);
  return `<div class="beside${even ? ' even' : ''}">\n${columns.join('\n')}\n</div>`;
}

/** A wide table scrolls in its own frame, by keyboard too. */
function tableHtml({ caption, columns, rows, prose, wide }: TableBlock, id: string): string {
  const side = (k: number) => (columns[k]?.align === 'right' ? ' class="n"' : '');
  const head = columns
    .map((column, k) => `<th scope="col"${side(k)}>${inline(column.heading)}</th>`)
    .join('');
  const body = rows.map((row) => {
    const cells = row.map((cell, k) =>
      k === 0 ? `<th scope="row"${side(k)}>${inline(cell)}</th>` : `<td${side(k)}>${inline(cell)}</td>`,
    );
    return `<tr>${cells.join('')}</tr>`;
  });
  const look = [prose ? 'prose' : '', wide ? 'wide' : ''].filter((name) => name !== '').join(' ');
  return `<p class="caption" id="${id}">${inline(caption)}</p>
<div class="frame" role="region" tabindex="0" aria-labelledby="${id}">
<table aria-labelledby="${id}"${look === '' ? '' : ` class="${look}"`}>
<thead><tr>${head}</tr></thead>
<tbody>
${body.join('\n')}
</tbody>
</table>
</div>`;
}

function chartHtml({ title, svg, note, data, interactive, half }: ChartBlock, id: string): string {
  const readout = interactive ? '\n<p class="readout" aria-live="polite"></p>' : '';
  const figures = data
    ? `\n<details>\n<summary>The figures as a table</summary>\n${tableHtml(data, `${id}t`)}\n</details>`
    : '';
  return `<figure${half ? ' class="half"' : ''}>
<figcaption id="${id}">${inline(title)}</figcaption>
<div class="frame" role="region" tabindex="0" aria-labelledby="${id}">
${svg}
</div>${readout}
<p class="note">${inline(note)}</p>${figures}
</figure>`;
}

/**
 * The hash by which a page's policy lets one style or script through.
 *
 * @param text the whole text between the tags, to the letter
 * @example policyHash('') // 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='
 */
function policyHash(text: string): string {
  return `sha256-${btoa(String.fromCharCode(...sha256(text)))}`;
}
