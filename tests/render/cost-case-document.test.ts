// The cost case's document: whole Markdown texts from stored results (change detectors; refresh with `-u` and read what
// changed), and what has to hold of the page whatever the result.
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { CostCaseFound } from '../../src/core/cost/result.js';
import { itemLabel } from '../../src/core/model/cost-items.js';
import { CHART_STYLE } from '../../src/render/charts/chart-style.js';
import { costCaseDocument } from '../../src/render/cost-document/cost-case-document.js';
import { costCaseFiles } from '../../src/render/cost-document/cost-case-files.js';
import { lineRanges } from '../../src/render/cost-document/place-text.js';
import { DOCUMENT_STYLE } from '../../src/render/document/document-style.js';
import { stored } from './stored-results.js';

const facts = (locale: string) => ({
  cell: 'demo',
  locale,
  files: [{ file: 'costs.csv', sha256: 'ab'.repeat(32) }],
  program: 'roundsman 0',
});
const situations = [
  ['demo-cost', 'en'],
  ['taxed-cost', 'de-DE'],
  ['harness-cost', 'en-US'],
] as const;

describe.each(situations)('%s, %s', (name, locale) => {
  const files = costCaseFiles(stored(name), facts(locale));
  const html = files['cost-case.html']!;

  test('the whole text', async () => {
    await expect(files['cost-case.md']).toMatchFileSnapshot(`golden/cost-case-${name}-${locale}.md`);
  });

  test('the page loads nothing, runs nothing, and carries no style but the one that its policy names', () => {
    expect(html).not.toMatch(/<script|<link|<img|<iframe|\son\w+=|\sstyle=|\ssrc=|\shref=|url\(|@import/i);
    const style = /<style>([\s\S]*?)<\/style>/.exec(html)![1]!;
    const hash = `sha256-${createHash('sha256').update(style).digest('base64')}`;
    expect(html).toContain(`content="default-src 'none'; style-src '${hash}'; base-uri 'none';`);
    expect(html.match(/<style>/g)).toHaveLength(1);
  });

  test('every tag is closed in its order, every table names its columns and rows, every label is there', () => {
    expect(unclosed(html)).toEqual([]);
    for (const [table] of html.matchAll(/<table[\s\S]*?<\/table>/g)) {
      const columns = table.match(/<th scope="col"/g)!.length;
      for (const [row] of table.matchAll(/<tr><th scope="row"[\s\S]*?<\/tr>/g))
        expect(row.match(/<t[hd]/g)).toHaveLength(columns);
    }
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, id] of html.matchAll(/aria-labelledby="([^"]+)"/g)) expect(ids).toContain(id);
  });
});

describe('what the document says', () => {
  const result = stored('demo-cost');
  const html = costCaseFiles(result, facts('en'))['cost-case.html']!;
  const text = html.replace(/<style[\s\S]*?<\/style>/, '').replace(/<[^>]+>/g, ' ');

  test('the summary gives decision, money, payback, risk and what would change it', () => {
    const summary = text.slice(text.indexOf('Summary'), text.indexOf('Assumptions and their sources'));
    const own = result.alternatives.find((a) => a.name === result.decision)!.increment!;
    const where = result.alternatives.find((a) => a.name === result.decision)!.stations.join(', ');
    const worth = Math.round(own.npv).toLocaleString('en');
    expect(summary).toContain(`Put boxes on ${where}: over 5 years this is worth €${worth} more`);
    expect(summary).toContain(`Payback ${own.paybackYears!.toFixed(1)} years`);
    expect(summary).toContain(`Rate of return: ${own.irrPct!.toFixed(1)}%`);
    expect(summary).toMatch(/pay in &gt;99\.9% of 10,000 trials/);
    expect(summary).toMatch(/price of one box above 1,\d{3} \(planned 1,650\): boxes on /);
    expect(summary).toMatch(/from \d+ changeovers on, boxes on every machine from \d+ on; 590 are planned/);
  });

  test('every value of costs.csv stands there with its source, file and line', () => {
    for (const item of result.costItems.filter((i) => i.place !== null)) {
      const row = new RegExp(
        `<th scope="row">${itemLabel(item.item)}</th>.*?<td>costs\\.csv:${item.place!.line}</td>`,
      ).exec(html);
      expect(row?.[0], item.item).toContain(item.source);
    }
  });

  test('every input of the audit has a place, another figure, the schedule or a default behind it', () => {
    const names = result.audit.map((entry) => entry.result);
    expect(new Set(names).size).toBe(names.length);
    for (const entry of result.audit)
      for (const input of entry.inputs) {
        if (input.from !== undefined) expect(names, input.item).toContain(input.from);
        else if (input.place === null)
          expect(input.item).toMatch(
            /\(default\)|by the (floor|steady cell)|difference of year|price of one box|written off in year|per cent written/,
          );
      }
  });

  test('head, rules of the shop and signatures come from costs.csv', () => {
    const given: Record<string, string | number> = {
      case_title: 'Boxes for hall 2',
      case_author: 'planning',
      case_revision: 'B',
      case_approvers: 'works manager; controller',
      hurdle_pct: 15,
      payback_limit_years: 0.1,
    };
    const place = { file: 'costs.csv', line: 90 };
    const items = Object.entries(given).map(([item, value]) => {
      return { item, value, low: null, high: null, unit: '', source: '', place, meaning: '' };
    });
    const names = Object.keys(given);
    const costItems = [...result.costItems.filter(({ item }) => !names.includes(item)), ...items];
    const page = costCaseFiles({ ...result, costItems }, facts('en'))['cost-case.html']!;
    const plain = page.replace(/<style[\s\S]*?<\/style>/, '').replace(/<[^>]+>/g, ' ');
    expect(page).toContain('<h1>Boxes for hall 2</h1>');
    for (const words of ['Author: planning.', 'Revision: B.', 'works manager', 'controller'])
      expect(plain).toContain(words);
    expect(plain).toMatch(/Hurdle rate {2}15\.0%: met, [\d.]+% before tax/);
    expect(plain).toMatch(/Payback limit {2}0\.1 years: not met/);
    expect(text).toContain('prepared by');
  });

  test('the cautions of a cost case are all in it', () => {
    // A number with a hyphen in it stays on one line.
    const page = costCaseFiles(result, facts('en'))['cost-case.html']!;
    expect(page).toContain('ISO <span class="whole">10218-2:2025</span>');
    expect(text.match(/29 CFR 1910\.147/g)!.length).toBeGreaterThanOrEqual(2);
  });

  test('nothing to do: no changeovers planned', () => {
    const none: CostCaseFound = {
      ...result,
      plannedChangeovers: 0,
      decision: 'do nothing',
      cumulativeCost: { points: [], crossing: null },
    };
    const { blocks } = costCaseDocument(none, facts('en'));
    expect(blocks[1]).toMatchObject({
      text: 'Do nothing: no changeovers are planned, so a box saves no minute.',
    });
    expect(blocks.find((b) => b.kind === 'chart' && b.title.includes('changeovers on'))).toBeUndefined();
  });
});

test('names from tables cannot become markup, in the page or in Markdown', () => {
  const nasty = `<img src=x onerror="alert(1)">&'|*\`[a](b)\u202E`;
  const named = JSON.parse(
    JSON.stringify(stored('demo-cost')).replaceAll('lathe_1', JSON.stringify(nasty).slice(1, -1)),
  ) as CostCaseFound;
  const files = costCaseFiles({ ...named, currency: '<b>' }, { ...facts('en'), cell: nasty });
  expect(files['cost-case.html']).not.toContain('<img');
  expect(files['cost-case.html']).not.toContain('<b>');
  expect(files['cost-case.html']).not.toContain('\u202E');
  expect(files['cost-case.html']).toContain('&lt;img src=x onerror=&quot;alert(1)&quot;&gt;&amp;&#39;|');
  expect(unclosed(files['cost-case.html']!)).toEqual([]);
  expect(files['cost-case.md']).not.toMatch(/(^|[^\\])<img|[^\\]\[a/);
});

test('the style has the hash that the policy names, and no script may run', () => {
  const hash = createHash('sha256').update(DOCUMENT_STYLE).digest('base64');
  const page = costCaseFiles(stored('demo-cost'), facts('en'))['cost-case.html'];
  const [, policy] = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page!)!;
  expect(policy).toBe(`default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`);
});

test('ink on paper has the contrast of WCAG 2.2 AA, 4.5 to 1, in light, dark and print', () => {
  const themes = [...DOCUMENT_STYLE.matchAll(/:root\{([^}]*)\}/g)].map((match) => match[1]!);
  expect(themes).toHaveLength(3);
  for (const theme of themes)
    for (const ink of ['ink', 'soft'])
      expect(
        contrast(colourIn(theme, ink), colourIn(theme, 'paper')),
        `${ink} in ${theme}`,
      ).toBeGreaterThanOrEqual(4.5);
});

test('marks on paper have the contrast of WCAG 2.2 AA for graphics, 3 to 1, in light, dark and print', () => {
  const themes = [...DOCUMENT_STYLE.matchAll(/:root\{([^}]*)\}/g)].map((match) => match[1]!);
  const colours = [...CHART_STYLE.matchAll(/svg\{(--work[^}]*)\}/g)].map((match) => match[1]!);
  expect(colours).toHaveLength(3);
  colours.forEach((list, k) => {
    const paper = colourIn(themes[k]!, 'paper');
    for (const mark of ['edge', 'robot', 'wait', 'stop', 'gain', 'loss'])
      expect(contrast(colourIn(list, mark), paper), `${mark} in ${list}`).toBeGreaterThanOrEqual(3);
    // Next to each other in one bar: work beside the robot's hand.
    expect(contrast(colourIn(list, 'robot'), colourIn(list, 'work'))).toBeGreaterThanOrEqual(3);
  });
});

const colourIn = (theme: string, name: string): string =>
  new RegExp(`--${name}:(#[0-9a-f]{3,6})`).exec(theme)![1]!;

function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high! + 0.05) / (low! + 0.05);
}

test.each([
  [[2, 3, 4, 9], '2-4,9'],
  [[7], '7'],
  [[5, 1, 2], '1-2,5'],
])('lines %j are written %s', (lines, text) => {
  expect(lineRanges(lines)).toBe(text);
});

/** Relative luminance by WCAG 2.2. */
function luminance(hex: string): number {
  const full = hex.length === 4 ? [...hex.slice(1)].map((c) => c + c).join('') : hex.slice(1);
  const [r, g, b] = [0, 2, 4].map((k) => {
    const share = Number.parseInt(full.slice(k, k + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

/** Tags that are opened and not closed in their order, or closed and not open. */
function unclosed(html: string): string[] {
  const open: string[] = [];
  const faults: string[] = [];
  for (const [, slash, name, self] of html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .matchAll(/<(\/?)([a-z][a-z0-9]*)[^>]*?(\/?)>/g)) {
    if (['meta'].includes(name!) || self === '/') continue;
    if (slash === '') open.push(name!);
    else if (open.pop() !== name) faults.push(name!);
  }
  return [...faults, ...open];
}
