// The report in a real browser: it opens clean, its charts hold what they say, keyboard and pointer read them, it prints,
// it is fit for all readers, and names from tables stay words.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { packagePath } from '../../src/cli/package-path.js';
import { reportFiles } from '../../src/render/report-page/report-files.js';
import { reportView } from '../../src/render/report-page/report-view.js';
import { data, freshFolder, runIn } from '../cli/run-in.js';
import { hostileReport, type SmallReport } from '../render/report-page/small-report.js';
import { shopReport } from '../support/shop-answers.js';
import { atSize, isLong } from '../support/size.js';
import { HANGS_MS, inBrowser } from './chromium.js';

const cwd = freshFolder();

interface Opened {
  readonly page: Page;
  /** Console messages, errors, refusals of the policy, and addresses asked for. */
  readonly trouble: string[];
  close(): Promise<void>;
}

inBrowser('the report page', (browser) => {
  const pages: Record<string, string> = {};
  let hostile: SmallReport;
  let folder: string;
  /** The page of the demo, or of a cell with as many tables, at 1280 pixels, opened once for the tests that read it or use it as a reader would. */
  let desk: Opened;

  beforeAll(async () => {
    if (isLong)
      expect((await runIn(cwd, ['report', data('demo'), '--out', 'demo', '--workers', '1'])).err).toBe('');
    folder = isLong ? join(cwd, 'demo') : (await shopReport()).folder;
    pages.demo = join(folder, 'report.html');
    hostile = await hostileReport();
    pages.hostile = join(cwd, 'hostile.html');
    const script = readFileSync(packagePath('dist/page/walk-moves.js'), 'utf8');
    writeFileSync(
      pages.hostile,
      reportFiles(reportView(hostile.results, hostile.facts), script)['report.html']!,
    );
    desk = await open('demo');
  });

  async function open(name: 'demo' | 'hostile', options: BrowserContextOptions = {}): Promise<Opened> {
    const context = await browser().newContext({ viewport: { width: 1280, height: 900 }, ...options });
    context.setDefaultTimeout(HANGS_MS);
    const page = await context.newPage();
    const trouble: string[] = [];
    page.on('console', (message) => trouble.push(`${message.type()}: ${message.text()}`));
    page.on('pageerror', (error) => trouble.push(error.message));
    page.on('dialog', (dialog) => {
      trouble.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    page.on('request', (request) => {
      if (request.url() !== pathToFileURL(pages[name]!).href) trouble.push(request.url());
    });
    await page.goto(pathToFileURL(pages[name]!).href);
    return { page, trouble, close: () => context.close() };
  }

  test('opens without a complaint and asks for nothing else', async () => {
    const { page, trouble } = desk;
    await page.mouse.wheel(0, 20_000);
    expect(trouble).toEqual([]);
    expect(await page.title()).toBe(`One robot, several machines: ${atSize('shop', 'shop', 'demo')}`);
    await page.mouse.wheel(0, -20_000);
  });

  test('each chart is drawn once for this width, with its figures as a table behind it or below it', async () => {
    const { page } = desk;
    const charts = await page.$$eval('h2, figure, :not(details) > .frame > table', (pieces) =>
      pieces.flatMap((figure, k) => {
        if (figure.localName !== 'figure') return [];
        const later = pieces.slice(k + 1);
        const end = later.findIndex(({ localName }) => localName === 'h2');
        const below = later.slice(0, end < 0 ? later.length : end).filter((of) => of.localName === 'table');
        const own = figure.querySelectorAll('details tbody tr').length;
        return {
          shown: [...figure.querySelectorAll('svg')].filter((svg) => svg.getBoundingClientRect().width > 0)
            .length,
          label: figure.querySelector('svg')?.getAttribute('aria-label') ?? '',
          rows: own || below.reduce((sum, table) => sum + table.querySelectorAll('tbody tr').length, 0),
        };
      }),
    );
    expect(charts.length).toBeGreaterThanOrEqual(3);
    for (const { shown, label, rows } of charts) {
      expect(shown, label).toBe(1);
      expect(label.length).toBeGreaterThan(20);
      expect(rows, label).toBeGreaterThan(0);
    }
  });

  test('the multiple-activity chart has a mark for every move', async () => {
    const { page } = desk;
    const moves = await page.$$eval('svg.wide .move[data-row="0"]', (found) =>
      found.map((move) => move.getAttribute('aria-label')),
    );
    const rounds = readFileSync(join(folder, 'robot-cycle.csv'), 'utf8').trimEnd().split('\n').length - 1;
    expect(moves.filter((words) => words!.startsWith('robot, '))).toHaveLength(moves.length);
    expect(new Set(moves.map((words) => words!.split(':')[0])).size).toBe(rounds);
    expect(moves.length).toBeGreaterThanOrEqual(rounds);
  });

  test('the move that is pointed at is told in words', async () => {
    const { page } = desk;
    const move = page.locator('svg.wide .move[data-row="1"]').nth(2);
    await move.hover();
    expect(await page.textContent('.readout')).toBe(await move.getAttribute('aria-label'));
    await page.mouse.move(5, 5);
    expect(await page.textContent('.readout')).toContain('arrow keys');
  });

  test('the arrow keys step from move to move, along a row and from row to row', async () => {
    const { page } = desk;
    const stops = page.locator('svg.wide .move[tabindex="0"]');
    expect(await stops.count()).toBe(1);
    await stops.focus();
    const focused = (what: string): Promise<string | null> =>
      page.evaluate((name) => document.activeElement!.getAttribute(name), what);
    const first = await focused('aria-label');
    expect(await page.textContent('.readout')).toBe(first);
    await page.keyboard.press('ArrowRight');
    expect(await focused('aria-label')).not.toBe(first);
    expect(await page.textContent('.readout')).toBe(await focused('aria-label'));
    expect(await stops.count()).toBe(1);
    await page.keyboard.press('ArrowDown');
    expect(await focused('data-row')).toBe('1');
    await page.keyboard.press('ArrowUp');
    expect(await focused('data-row')).toBe('0');
    await page.keyboard.press('Home');
    expect(await focused('aria-label')).toBe(
      await page.locator('svg.wide .move[data-row="0"]').first().getAttribute('aria-label'),
    );
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowRight');
    expect(await focused('aria-label')).toBe(
      await page.locator('svg.wide .move[data-row="0"]').last().getAttribute('aria-label'),
    );
  });

  test('the keyboard reaches content, the charts and tables of the memo, and then the contents', async () => {
    const { page } = desk;
    await page.reload();
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement!.className)).toBe('skip');
    const box = await page.locator('.skip').boundingBox();
    expect(box!.x).toBeGreaterThanOrEqual(0);
    const reached: string[] = [];
    for (let i = 0; i < 12 && !reached.includes('a'); i++) {
      await page.keyboard.press('Tab');
      reached.push(await page.evaluate(() => document.activeElement!.localName));
    }
    expect(reached.length).toBeLessThan(12);
    await page.keyboard.press('Enter');
    await page.waitForURL(/#s\d+$/);
  });

  test('without its script the page is whole', async () => {
    const { page, trouble, close } = await open('demo', { javaScriptEnabled: false });
    expect(trouble).toEqual([]);
    expect(await page.locator('svg.wide .move title').first().textContent()).toContain('robot, ');
    expect(await page.locator('.readout').isVisible()).toBe(false);
    await page.locator('figure summary').first().click();
    expect(await page.locator('figure details table').first().isVisible()).toBe(true);
    await close();
  });

  // The page of hostile names has what the demo has not: a second folder. In the dark only colours differ.
  test.each(atSize(['hostile'] as const, ['demo', 'hostile'] as const))(
    'axe-core finds nothing amiss, light or dark: %s',
    async (name) => {
      const { page, close } = await open(name, { bypassCSP: true });
      await page.evaluate(axe.source);
      const amiss = (rules: readonly string[]): Promise<string[]> =>
        page.evaluate(async (only) => {
          const loaded = globalThis as unknown as {
            axe: {
              run(options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
            };
          };
          const { violations } = await loaded.axe.run(only.length > 0 ? { runOnly: only } : {});
          return violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 160)}`);
        }, rules);
      expect(await amiss([])).toEqual([]);
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await amiss(['color-contrast'])).toEqual([]);
      await close();
    },
  );

  test.each(atSize(['hostile'] as const, ['demo', 'hostile'] as const))(
    '400 pixels wide, nothing runs off to the side: %s',
    async (name) => {
      const { page, close } = await open(name, { viewport: { width: 400, height: 800 } });
      const [content, frame] = await page.evaluate(() => [
        document.documentElement.scrollWidth,
        document.documentElement.clientWidth,
      ]);
      expect(content).toBe(frame);
      await close();
    },
  );

  test.each(atSize(['A4'], ['A4', 'Letter']))('prints on %s', async (format) => {
    const text = (await desk.page.pdf({ format })).toString('latin1');
    expect(text.startsWith('%PDF')).toBe(true);
    const sheets = text.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    expect(sheets).toBeGreaterThan(5);
    expect(sheets).toBeLessThan(30);
  });

  test('on paper the charts keep their width and what only a screen can do is left out', async () => {
    const { page } = desk;
    await page.emulateMedia({ media: 'print' });
    for (const what of ['nav', '.skip', '.readout', 'figure details'])
      expect(await page.locator(what).first().isVisible(), what).toBe(false);
    const shown = await page.$$eval('svg', (all) =>
      all
        .filter((svg) => !svg.closest('figure.half') && svg.getBoundingClientRect().width > 0)
        .map((svg) => svg.getAttribute('class')),
    );
    expect(new Set(shown)).toEqual(new Set(['wide']));
    await page.emulateMedia({ media: 'screen' });
  });

  test('names that would run are read as words', async () => {
    const { page, trouble, close } = await open('hostile');
    expect(trouble).toEqual([]);
    expect(await page.locator('img, main script, iframe').count()).toBe(0);
    for (const { name } of hostile.results.cell.stations)
      expect(await page.getByText(name, { exact: true }).count(), name).toBeGreaterThan(0);
    await close();
  });
});
