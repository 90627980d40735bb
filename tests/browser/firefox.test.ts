// The page of a cell in Firefox, the other engine: it opens clean from disk, has the command line's figures, and answers
// a change by keyboard and by pointer. All else is tested in one engine only: cell-page.test.ts.
import { pathToFileURL } from 'node:url';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { data, freshFolder, runIn } from '../cli/run-in.js';
import { isDeep } from '../support/size.js';
import { pageOf } from './cell-page.js';
import { HANGS_MS } from './chromium.js';
import { findProgram } from './find-program.js';

const path = findProgram(process.env.FIREFOX_PATH, ['firefox-esr', 'firefox']);
const REASON = 'no firefox was found on the PATH and FIREFOX_PATH names none';

// Of the deep run alone: what it looks at, cell-page.test.ts looks at in the other engine.
describe.skipIf(!isDeep || (path === null && process.env.CI !== 'true'))(
  'the page of a cell in Firefox',
  () => {
    let browser: Browser;
    let page: Page;
    const cwd = freshFolder();
    const trouble: string[] = [];

    beforeAll(async () => {
      if (path === null) throw new Error(REASON);
      browser = await puppeteer.launch({ browser: 'firefox', executablePath: path, headless: true });
      page = await browser.newPage();
      page.on('console', (message) => trouble.push(`${message.type()}: ${message.text()}`));
      page.on('pageerror', (error) => trouble.push(String(error)));
      page.on('request', (request) => {
        if (!/^(file|blob|data):/.test(request.url())) trouble.push(request.url());
      });
      await page.setViewport({ width: 1280, height: 900 });
      const file = await pageOf(cwd, data('two-hands'), 'cell.html');
      await page.goto(pathToFileURL(file).href);
    });
    afterAll(() => browser?.close());

    const rate = (): Promise<string> => page.$eval('.rate .figure', (field) => field.textContent!);
    /** Waits for a proven rate that is not the one given. */
    async function newRate(old: string): Promise<string> {
      await page.waitForFunction(
        (before) =>
          document.querySelector('.rate .figure')?.textContent !== before &&
          /Proven|Best found/.test(document.querySelector('.rate .sure')?.textContent ?? ''),
        { timeout: HANGS_MS },
        old,
      );
      return rate();
    }
    async function rateOfCommand(...options: readonly string[]): Promise<string> {
      const said = await runIn(cwd, ['schedule', data('two-hands'), '--json', ...options]);
      return `${(JSON.parse(said.out) as { partsPerH: { total: number } }).partsPerH.total.toFixed(1)} parts/h`;
    }

    test('opens with the rate of the command', async () => {
      expect(await newRate('')).toBe(await rateOfCommand());
    });

    test('a cycle time typed anew changes the rate as the command has it; undo brings it back', async () => {
      const before = await rate();
      await page.locator('::-p-aria([name="routes"][role="tab"])').click();
      const field = await page.waitForSelector('input[aria-label="cycle_s, row 2"]');
      await field!.click({ count: 3 });
      await page.keyboard.type('200');
      await page.keyboard.press('Enter');
      const after = await newRate(before);
      expect(after).toBe(await rateOfCommand('--set', 'routes.pin.2.cycle_s=200'));
      await page.locator('::-p-aria([name="Undo"][role="button"])').click();
      expect(await newRate(after)).toBe(before);
    });

    test('a station is dragged with the rate beside it', async () => {
      await page.locator('::-p-aria([name="floor"][role="tab"])').click();
      const before = await rate();
      const touch = (await page.waitForSelector('.touch'))!;
      const [x, y] = await touch.evaluate((mark) => {
        mark.scrollIntoView({ block: 'center' });
        const { left, top, width, height } = mark.getBoundingClientRect();
        return [left + width / 2, top + height / 2] as const;
      });
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 60, y + 60, { steps: 4 });
      await page.waitForSelector('.held-rate');
      await page.mouse.up();
      await page.waitForFunction(() => document.querySelector('.held-rate') === null);
      await page.locator('::-p-aria([name="Undo"][role="button"])').click();
      await page.waitForFunction(
        (old) => document.querySelector('.rate .figure')?.textContent === old,
        { timeout: HANGS_MS },
        before,
      );
    });

    test('nothing was complained of, and nothing asked for from anywhere', () => {
      expect(trouble).toEqual([]);
    });
  },
);
