// The report as files: sections for what the tables hold and a line for what they lack, the same every time, nothing that runs.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, test } from 'vitest';
import { packagePath } from '../../../src/cli/package-path.js';
import { compareCells } from '../../../src/core/compare/compare-cells.js';
import { renderReportAnswer } from '../../../src/render/report-page/report-answer.js';
import { reportFiles } from '../../../src/render/report-page/report-files.js';
import { reportView } from '../../../src/render/report-page/report-view.js';
import { plainStyle } from '../../../src/render/text-style.js';
import { readCell } from '../../../src/tables/read-cell.js';
import { quickTables } from '../../support/quick-shop.js';
import { figuresOfTables } from './figures-of-tables.js';
import { hostileReport, type SmallReport, smallReport, smallTables } from './small-report.js';

const SCRIPT = 'document.title;';
const VARIED = { station: '*', element: 'cycle', distribution: 'exponential', parameters: [80] } as const;

const headings = (page: string, level: number): string[] =>
  [...page.matchAll(new RegExp(`<h${level}[^>]*>(.*?)</h${level}>`, 'g'))].map((match) => match[1]!);

/** Tags that are opened and not closed, or closed and not opened. */
function unclosed(page: string): string[] {
  const open: string[] = [];
  const wrong: string[] = [];
  for (const [, end, name, self] of page.matchAll(/<(\/?)([a-z][a-z0-9]*)[^>]*?(\/?)>/g)) {
    if (self === '/' || name === 'meta') continue;
    if (end === '') open.push(name!);
    else if (open.pop() !== name) wrong.push(name!);
  }
  return [...wrong, ...open];
}

/** Each figure stands under its own heading; a table may have further rows of another kind. */
function expectFigures(
  text: string | undefined,
  rows: ReturnType<typeof figuresOfTables>[string],
  name: string,
) {
  if (rows.length === 0) return;
  const read: Record<string, string>[] = parse(text!, { columns: true });
  const kinds = new Set(rows.map((row) => row.figure));
  const found = rows[0]!.figure === undefined ? read : read.filter((row) => kinds.has(row.figure!));
  const inOrder = (list: readonly object[]): string[] =>
    list.map((row) => JSON.stringify(Object.entries(row).sort(([a], [b]) => (a < b ? -1 : 1)))).sort();
  const shown = (value: string | number | boolean | null): string =>
    typeof value === 'number'
      ? String(Number(value.toFixed(4)) + 0)
      : value === true
        ? 'yes'
        : value === false
          ? 'no'
          : (value ?? '');
  const expected = rows.map((row) =>
    Object.fromEntries(Object.entries(row).map(([heading, value]) => [heading, shown(value)])),
  );
  expect(inOrder(found), name).toEqual(inOrder(expected));
}

describe('three tables alone', () => {
  let small: SmallReport;
  let files: Record<string, string>;
  let page: string;

  beforeAll(async () => {
    small = await smallReport();
    files = reportFiles(reportView(small.results, small.facts), SCRIPT);
    page = files['report.html']!;
  });

  test('give the page, Markdown and the tables that there is something for', () => {
    expect(Object.keys(files).sort()).toEqual([
      'closed-forms.csv',
      'critical-path.csv',
      'events.csv',
      'gain-per-second.csv',
      'report.html',
      'report.md',
      'robot-cycle.csv',
      'robot-programs.csv',
      'robot-times.csv',
      'simulated-losses.csv',
      'simulated-parts.csv',
      'simulated-robot.csv',
      'simulated-stations.csv',
      'size-changes-at.csv',
      'size-sensitivity.csv',
      'size.csv',
      'station-intervals.csv',
      'station-times.csv',
      'what-if.csv',
      'why-stations-wait.csv',
    ]);
    for (const [name, text] of Object.entries(files)) expect(text.endsWith('\n'), name).toBe(true);
  });

  test('answer first, then the questions, then what it rests on', () => {
    expect(headings(page, 2)).toEqual([
      'Contents',
      'In words',
      'Robot sequence',
      'How many machines can it tend?',
      'Output per week',
      'Output with downtime and variation',
      'What to make, and which hours are the bottleneck?',
      'Boxes or one harness?',
      'How many points and boxes?',
      'What it rests on',
    ]);
    const folded = [...page.matchAll(/<details class="fold">\n<summary>(.*?)</g)].map((match) => match[1]);
    expect(folded.slice(-5)).toEqual([
      'Cautions in full',
      'Inputs, cell by cell',
      'What was assumed',
      'How each figure is worked out',
      'Versions and tables',
    ]);
  });

  test('before the contents a memo: one sentence and four figures', () => {
    const memo = page.slice(0, page.indexOf('id="contents"'));
    expect(memo).toMatch(/<p class="lead">The cell makes [\d.]+ parts an hour\.<\/p>/);
    expect(memo.match(/<dd class="value">/g)).toHaveLength(4);
  });

  test('in the terminal at most twelve lines, all sentences with --full', () => {
    const view = reportView(small.results, small.facts);
    const names = Object.keys(files).map((name) => `out/${name}`);
    const short = renderReportAnswer(view, names, plainStyle);
    expect(short.trimEnd().split('\n').length).toBeLessThanOrEqual(12);
    expect(short).toMatch(/^Open out\/report\.html\. Beside it: report\.md and \d+ CSV tables\.$/m);
    const full = renderReportAnswer(view, names, { ...plainStyle, full: true });
    for (const title of ['For the planner', 'For the estimator'])
      expect(full).toMatch(new RegExp(`^${title}$`, 'm'));
  });

  test.each([
    ['shifts.csv', 'Fill in shifts.csv'],
    ['parts.csv', 'Fill in parts.csv'],
    ['costs.csv', 'Fill in changeovers.csv and costs.csv'],
    ['signals.csv', 'Fill in signals.csv'],
    ['variation.csv', 'variation of the times (variation.csv)'],
    ['stops.csv', 'planned stops (stops.csv)'],
  ])('the page says what %s would bring', (_table, text) => {
    expect(page).toContain(text);
    expect(files['report.md']).toContain(text);
  });

  test('every link of the contents leads to a heading, and no name is given twice', () => {
    const ids = [...page.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]!);
    expect(new Set(ids).size).toBe(ids.length);
    const links = [...page.matchAll(/href="#([^"]*)"/g)].map((match) => match[1]!);
    expect(links.length).toBeGreaterThanOrEqual(9);
    for (const link of links) expect(ids).toContain(link);
  });

  test('every tag is closed', () => {
    expect(
      unclosed(page.replace(/<!doctype html>|<style>[\s\S]*?<\/style>|<script[\s\S]*?<\/script>/g, '')),
    ).toEqual([]);
  });

  test('only its own style and script may be used, by their hashes', () => {
    const hash = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
    const [, style] = /<style>([\s\S]*?)<\/style>/.exec(page)!;
    const [, policy] = /Content-Security-Policy" content="([^"]*)"/.exec(page)!;
    expect(policy).toBe(
      `default-src 'none'; style-src ${hash(style!)}; script-src ${hash(SCRIPT)}; base-uri 'none'; form-action 'none'`,
    );
    expect(page).toContain(`<script type="module">${SCRIPT}</script>`);
    expect(page).not.toMatch(/\sstyle="|\son[a-z]+="|https?:/);
  });

  test('the compiled script of the program can stand in a page', () => {
    const script = readFileSync(packagePath('dist/page/walk-moves.js'), 'utf8');
    expect(() => reportFiles(reportView(small.results, small.facts), script)).not.toThrow();
    expect(script).not.toMatch(/^import/m);
    expect(() => reportFiles(reportView(small.results, small.facts), 'a</script>')).toThrow(RangeError);
  });

  test('the time that the work took is in none of them', () => {
    const { results, facts } = small;
    const slower = {
      ...results,
      schedule: { ...results.schedule, searched: { ...results.schedule.searched, nodes: 1, seconds: 99 } },
      simulation: {
        ...results.simulation,
        result: { ...results.simulation.result, eventsPerSecond: 1 },
      },
    };
    expect(reportFiles(reportView(slower, facts), SCRIPT)).toEqual(files);
  });

  test('the events are those of the schedule, and the rows of each table have one width', () => {
    const lines = files['events.csv']!.trimEnd().split('\n').slice(1);
    expect(lines).toHaveLength(small.results.schedule.events.length);
    const first = small.results.schedule.events[0]!;
    expect(lines[0]!.split(',').slice(2, 5)).toEqual([first.action, first.station, first.part]);
    for (const [name, text] of Object.entries(files).filter(([n]) => n.endsWith('.csv'))) {
      const widths = text
        .trimEnd()
        .split('\n')
        .map((line) => line.replace(/"(?:[^"]|"")*"/g, '').split(',').length);
      expect(new Set(widths).size, name).toBe(1);
    }
  });

  test('a second cell brings the table of differences', async () => {
    const slow = { ...smallTables, 'robot.csv': 'setting,value\nhands,1\ntravel_s,9\n' };
    const variants = [smallTables, slow].map((tables, k) => ({
      ...{ name: `cell ${k}`, dispatch: 'first' as const },
      // Times that vary, so that the ends of the interval are apart.
      cell: { ...readCell(tables), variation: [VARIED] },
    }));
    const comparison = await compareCells(variants, { replications: 2, hours: 4 });
    const results = { ...small.results, comparison };
    const compared = reportFiles(reportView(results, small.facts), SCRIPT)['compare.csv'];
    const rows = figuresOfTables(results)['compare.csv']!;
    expect(rows).toHaveLength(1);
    expect(rows[0]!.parts_per_shift_low).toBeLessThan(rows[0]!.parts_per_shift_high as number);
    expectFigures(compared, rows, 'compare.csv');
  });

  test('the inputs are shown as they were read, with their lines', () => {
    expect(page).toMatch(
      /<th scope="row">3<\/th><td>cap<\/td><td class="n">2<\/td><td>mill<\/td><td class="n">30<\/td>/,
    );
    expect(page).toContain('routes.csv 2-7');
  });
});

test('names that would run are words in the page, in Markdown and in a spreadsheet', async () => {
  const { results, facts } = await hostileReport();
  const files = reportFiles(reportView(results, { ...facts, currency: '<b>' }), SCRIPT);
  const page = files['report.html']!.replace(`<script type="module">${SCRIPT}</script>`, '');
  expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
  // Tags as they are, with the values of their attributes left out: words in these are words.
  const tags = (page.replace(/"[^"<>]*"/g, '""').match(/<[^>]*>/g) ?? []).join('');
  expect(tags.match(/<script|<img|<b>|<u>|\son[a-z]+=/gi)).toBeNull();
  expect(headings(page, 2)).toEqual(
    expect.arrayContaining(['Are the jobs of the week made in time?', 'Which layout?']),
  );
  // Signs that turn the reading direction are shown, not obeyed.
  for (const [name, text] of Object.entries(files).filter(([n]) => !n.endsWith('.csv')))
    expect(text, name).not.toMatch(/[\u202A-\u202E\u2066-\u2069\u200E\u200F]/);
  expect(page.match(/href="(?!#)/g)).toBeNull();
  expect(unclosed(page.replace(/<!doctype html>|<style>[\s\S]*?<\/style>/g, ''))).toEqual([]);
  expect(files['report.md']).not.toMatch(/(^|[^\\])<(script|img|svg|b>)|[^\\]\]\(javascript/);
  for (const [name, text] of Object.entries(files).filter(([n]) => n.endsWith('.csv')))
    expect(text, name).not.toMatch(/(^|,)"?[\s\p{Cf}]*[=@+]/mu);
  expect(files['events.csv']).toContain("'=1+cmd");
});

test('a folder with every table brings every section and every table of the spreadsheet', async () => {
  const { 'log.csv': _, 'readings.csv': __, ...whole } = quickTables();
  // One pattern of shifts of the two says it.
  const tables = { ...whole, 'shifts.csv': whole['shifts.csv']!.replace(/^day,.*\n/gm, '') };
  const { results, facts } = await smallReport(tables);
  const files = reportFiles(reportView(results, facts), SCRIPT);
  for (const name of [
    'cash-flow.csv',
    'cost-case.html',
    'cost-case.md',
    'mix.csv',
    'patterns.csv',
    'points.csv',
    'shift-losses.csv',
    'jobs-by-shift.csv',
    'machines-by-shift.csv',
    'setups-by-shift.csv',
  ])
    expect(files, name).toHaveProperty([name]);
  const headed = figuresOfTables(results);
  for (const [name, rows] of Object.entries(headed)) expectFigures(files[name], rows, name);
  expect(Object.values(headed).filter((rows) => rows.length > 0).length).toBeGreaterThanOrEqual(11);
  expect(files['report.html']).not.toContain('Fill in ');
  expect(headings(files['report.html']!, 2)).toContain('Are the jobs of the week made in time?');
  expect(files['report.md']).toContain('## Are the jobs of the week made in time?');
  for (const { job, inTime } of results.jobs!.plans.find((p) => p.pattern === results.jobs!.best)!.jobs) {
    const row = new RegExp(`<th scope="row">${job}</th>.*?</tr>`).exec(files['report.html']!)![0];
    expect(row).toContain(`<td class="n">${inTime}</td>`);
  }
  const flow = files['cash-flow.csv']!.trimEnd().split('\n');
  if (results.costCase?.status !== 'found') throw new Error('the starter has a cost case');
  expect(flow).toHaveLength(results.costCase.horizonYears + 2);
  const sum = flow.slice(1).reduce((total, line) => total + Number(line.split(',')[1]), 0);
  expect(sum).toBeCloseTo(
    results.costCase.alternatives[0]!.cashFlow.reduce((a, b) => a + b, 0),
    2,
  );
});
