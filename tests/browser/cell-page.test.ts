// The page of a cell in a real browser: it opens clean from disk, its results are those of the command line, what is
// wrong is said at the cell, and keyboard and pointer do all that can be done.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import axe from 'axe-core';
import { strFromU8, unzipSync, zipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { packagePath } from '../../src/cli/package-path.js';
import { data, freshFolder, runIn } from '../cli/run-in.js';
import { atSize, deepTest, longTest } from '../support/size.js';
import { type OpenedPage, openPage, pageOf, savedResult, withoutClock } from './cell-page.js';
import { HANGS_MS, inBrowser } from './chromium.js';

const cwd = freshFolder();
const empty = packagePath('dist/page/cell.html');

const QUESTIONS = ['schedule', 'size', 'shifts', 'simulate', 'costcase', 'io'];
/** Of the larger cells those that are worked out once: the runs of the others are the same code on more machines. */
const OF_LARGE = ['schedule', 'costcase', 'io'];

inBrowser('the page of a cell', (browser) => {
  let wash: string;
  /** The two pages as they are opened, for the tests that read them or use them as a user would. */
  let [desk, blank]: OpenedPage[] = [];

  beforeAll(async () => {
    wash = await pageOf(cwd, data('wash-line'), 'wash.html');
    const tables = firstCell({ cyclesS: [90], loadS: 5, unloadS: 4 });
    mkdirSync(join(cwd, 'one-machine'));
    for (const [file, text] of Object.entries(tables)) writeFileSync(join(cwd, 'one-machine', file), text);
    desk = await openPage(browser(), wash);
    blank = await openPage(browser(), empty);
  });

  /** Waits for the proven rate. */
  async function rateOf(page: Page): Promise<string> {
    await page.locator('.rate .sure', { hasText: /Proven|Best found/ }).waitFor();
    return (await page.textContent('.rate .figure'))!;
  }

  /** A first cell that is searched at once. */
  async function oneMachine(page: Page): Promise<void> {
    await page.getByLabel('How many machines').fill('1');
    await page.getByLabel('Machine cycle').fill('20');
    await page.getByRole('button', { name: 'Make the cell' }).click();
  }

  test('is one file under 1.5 MB', () => {
    expect(readFileSync(empty).length).toBeLessThan(1_500_000);
  });

  test('opens from disk without a complaint, asks for nothing, and has the rate of the command', async () => {
    const { page, trouble } = desk!;
    const said = await runIn(cwd, ['schedule', data('wash-line'), '--json']);
    const rate = (JSON.parse(said.out) as { partsPerH: { total: number } }).partsPerH.total;
    expect(await rateOf(page)).toBe(`${rate.toFixed(1)} parts/h`);
    expect(await page.textContent('.rate .sure')).toContain('Proven optimal');
    expect(trouble).toEqual([]);
  });

  test.each(['wash', 'empty'])('400 pixels wide, nothing runs off to the side: %s', async (name) => {
    const { page } = name === 'wash' ? desk! : blank!;
    await page.setViewportSize({ width: 400, height: 800 });
    const [content, frame] = await page.evaluate(() => [
      document.documentElement.scrollWidth,
      document.documentElement.clientWidth,
    ]);
    expect(content).toBe(frame);
    await page.setViewportSize({ width: 1280, height: 900 });
  });

  test.each<[string, readonly string[]]>(
    atSize(
      [['one-machine', ['schedule', 'io']]],
      [
        ...atSize([], ['starter'], ['wash-line', 'two-hands', 'starter']).map((name): [string, string[]] => [
          data(name),
          QUESTIONS,
        ]),
        ...atSize([], [], ['demo', 'six-machines', 'weekly-jobs']).map((name): [string, string[]] => [
          data(name),
          OF_LARGE,
        ]),
      ],
    ),
  )(
    'every result of %s equals that of the command line to the last bit: %j',
    async (folder, questions) => {
      const { page, trouble, close } = await openPage(
        browser(),
        await pageOf(cwd, folder, `${basename(folder)}.html`),
      );
      for (const question of questions) {
        const said = await runIn(cwd, [question, folder, '--json']);
        if (said.exit !== 0) continue;
        const [ours, theirs] = [await savedResult(page, question), JSON.parse(said.out)].map(withoutClock);
        expect.soft(ours, question).toEqual(theirs);
      }
      expect(trouble).toEqual([]);
      await close();
    },
    3_600_000,
  );

  deepTest('the cost case comes out as the command writes it, to the letter', async () => {
    const name = atSize('starter', 'starter', 'demo');
    const { page, close } = await openPage(browser(), await pageOf(cwd, data(name), `${name}-case.html`));
    await page.locator('.rate strong').waitFor();
    await page.click('.menu > summary');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'The cost case as a document' }).click(),
    ]);
    const files = unzipSync(readFileSync(await download.path()));
    expect((await runIn(cwd, ['costcase', data(name), '--out', 'case'])).exit).toBe(0);
    const written = (file: string): Uint8Array => readFileSync(join(cwd, 'case', file));
    for (const file of ['cost-case.html', 'cost-case.md'])
      expect(strFromU8(files[`${name}/${file}`]!), file).toBe(strFromU8(written(file)));
    // Browser and Node pack with libraries of their own: what is packed is the same.
    const [ours, theirs] = [files[`${name}/cost-case.xlsx`]!, written('cost-case.xlsx')].map(unpacked);
    expect(Object.keys(ours!)).toEqual(Object.keys(theirs!));
    for (const [part, text] of Object.entries(theirs!)) expect(ours![part] === text, part).toBe(true);
    await close();
  });

  longTest(
    'the report comes out as the command writes it, to the letter',
    async () => {
      const { page, close } = await openPage(browser(), await pageOf(cwd, data('two-hands'), 'report.html'));
      await page.locator('.rate strong').waitFor();
      await page.click('.menu > summary');
      const [download] = await Promise.all([
        page.waitForEvent('download', { timeout: 600_000 }),
        page.getByRole('button', { name: 'The whole report' }).click(),
      ]);
      const files = unzipSync(readFileSync(await download.path()));
      expect((await runIn(cwd, ['report', data('two-hands'), '--out', 'report'])).exit).toBe(0);
      for (const file of readdirSync(join(cwd, 'report')).filter((name) => !/\.(xlsx|json)$/.test(name)))
        expect(
          strFromU8(files[`two-hands/${file}`]!) === readFileSync(join(cwd, 'report', file), 'utf8'),
          file,
        ).toBe(true);
      const [ours, theirs] = [
        files['two-hands/report.xlsx'],
        readFileSync(join(cwd, 'report', 'report.xlsx')),
      ].map(unpacked);
      expect(ours).toEqual(theirs);
      await close();
    },
    900_000,
  );

  deepTest('where no sequence can be repeated it says why, as the command does', async () => {
    const { page, close } = await openPage(
      browser(),
      await pageOf(cwd, data('no-schedule'), 'no-schedule.html'),
    );
    await page.locator('.rate', { hasText: 'No sequence' }).waitFor();
    const said = await runIn(cwd, ['schedule', data('no-schedule')]);
    const reason = (await page.textContent('#answer-schedule .piece p'))!;
    expect(said.err.replaceAll(/\s+/g, ' ')).toContain(reason.replaceAll(/\s+/g, ' '));
    await close();
  });

  test('three questions make a first cell, by keyboard alone', async () => {
    const { page, trouble } = blank!;
    await page.getByLabel('How many machines').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('2');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('100 80');
    await page.keyboard.press('Enter');
    await rateOf(page);
    expect(await page.textContent('[role=status]')).toContain('assumed');
    expect(trouble).toEqual([]);
  });

  test('a wrong value is told at its cell and hides every figure; undo brings them back', async () => {
    const { page } = desk!;
    const rate = await rateOf(page);
    await page.getByRole('tab', { name: /^stations/ }).click();
    const cell = page.getByLabel('station, row 1', { exact: true });
    await cell.fill('nowhere');
    await cell.press('Enter');
    await page.locator('.rate', { hasText: /errors? in the tables/ }).waitFor();
    expect(await page.textContent('.rate')).not.toContain('parts/h');
    await page.getByRole('tab', { name: /^routes/ }).click();
    const wrong = page.locator('[aria-invalid=true]').first();
    const note = (await wrong.getAttribute('aria-describedby'))!;
    expect(await page.textContent(`#${note}`)).toContain('expected a station of stations.csv');
    await page.locator('h2').first().click();
    await page.keyboard.press('Control+Z');
    expect(await rateOf(page)).toBe(rate);
    await page.getByRole('button', { name: 'Redo' }).click();
    await page.locator('.rate', { hasText: 'in the tables' }).waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
  });

  test('a block from a spreadsheet is pasted over rows and past the end', async () => {
    const { page } = desk!;
    await page.getByRole('tab', { name: /^stations/ }).click();
    await page.getByLabel('station, new row', { exact: true }).focus();
    await page.evaluate(() => {
      const data = new DataTransfer();
      data.setData('text/plain', 'extra_1\tbench\nextra_2\tbench\n');
      document.activeElement!.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    });
    expect(
      await page
        .getByLabel(/^station, row/)
        .evaluateAll((all) => all.slice(-2).map((f) => (f as HTMLInputElement).value)),
    ).toEqual(['extra_1', 'extra_2']);
  });

  deepTest(
    'a station is dragged with the rate beside it, moved by keys and by numbers, and put back',
    async () => {
      const { page, trouble, close } = await openPage(browser(), empty);
      await oneMachine(page);
      const rate = await rateOf(page);
      const station = page.getByRole('button', { name: /^machine_1, machine/ });
      const placeOf = async (): Promise<string> => (await station.getAttribute('aria-label'))!;
      const before = await placeOf();
      const box = (await station.locator('.touch').boundingBox())!;
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width / 2, box.y - 90, { steps: 6 });
      await page.locator('.held-rate', { hasText: /parts\/h \(-/ }).waitFor();
      await page.mouse.up();
      expect(await page.locator('.held-rate').count()).toBe(0);
      const dragged = await placeOf();
      expect(dragged).not.toBe(before);
      // The rate before stands there until the new one is proven.
      await expect.poll(() => rateOf(page), { timeout: HANGS_MS }).not.toBe(rate);
      await station.press('ArrowUp');
      expect(await placeOf()).not.toBe(dragged);
      await page.getByRole('combobox', { name: /^Station/ }).selectOption('machine_1');
      await page.getByLabel('x, m').fill('-0.5');
      await page.getByLabel('x, m').press('Enter');
      expect(await placeOf()).toContain('x -0.5 m');
      for (let k = 0; k < 3; k++) await page.getByRole('button', { name: 'Undo' }).click();
      expect(await placeOf()).toBe(before);
      await expect.poll(() => rateOf(page), { timeout: HANGS_MS }).toBe(rate);
      expect(trouble).toEqual([]);
      await close();
    },
  );

  deepTest('a finger drags a station with the rate beside it', async () => {
    const { page, close } = await openPage(browser(), empty, {
      viewport: { width: 400, height: 800 },
      hasTouch: true,
      isMobile: true,
    });
    await oneMachine(page);
    await rateOf(page);
    const station = page.getByRole('button', { name: /^machine_1, machine/ });
    await station.evaluate((mark) => mark.scrollIntoView({ block: 'center' }));
    const before = await station.getAttribute('aria-label');
    const box = (await station.locator('.touch').boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const fingers = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', by: number) =>
      fingers.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: x + by, y: y - by }],
      });
    await touch('touchStart', 0);
    for (const by of [15, 30, 45, 60]) await touch('touchMove', by);
    await page.locator('.held-rate').waitFor();
    await touch('touchEnd', 60);
    await expect.poll(() => station.getAttribute('aria-label'), { timeout: HANGS_MS }).not.toBe(before);
    await close();
  });

  deepTest('the robot cycle is stepped through on the floor', async () => {
    const { page, close } = await openPage(browser(), empty);
    await oneMachine(page);
    await rateOf(page);
    await page.getByRole('button', { name: 'Next action' }).click();
    expect(await page.textContent('.play')).toMatch(/the robot (picks|places) part/);
    expect(await page.locator('.playing').count()).toBe(1);
    await page.getByRole('button', { name: 'Play the robot cycle' }).click();
    const said = await page.textContent('.play p:last-child');
    await page.waitForFunction(
      (before) => document.querySelector('.play p:last-child')?.textContent !== before,
      said,
    );
    await page.getByRole('button', { name: 'End', exact: true }).click();
    expect(await page.locator('.playing').count()).toBe(0);
    await close();
  });

  deepTest(
    'a figure is drawn against a number from its cell, slid by keys and put into the table',
    async () => {
      const { page, trouble, close } = await openPage(browser(), empty);
      await oneMachine(page);
      const rate = await rateOf(page);
      await page.getByRole('tab', { name: /^routes/ }).click();
      const field = page.getByLabel('cycle_s, row 2', { exact: true });
      await field.focus();
      await page.getByRole('button', { name: 'Draw a figure against routes.part.2.cycle_s' }).press('Enter');
      await page.locator('#answer-sweep .piece figure').waitFor();
      const slider = page.getByRole('slider', { name: 'routes.part.2.cycle_s' });
      await slider.press('ArrowRight');
      await page.locator('.slide output', { hasText: /^21 s: parts per hour \d/ }).waitFor();
      await page.getByRole('button', { name: 'Put 21 into the table' }).press('Enter');
      expect(await field.inputValue()).toBe('21');
      await page.waitForFunction((old) => document.querySelector('.rate .figure')?.textContent !== old, rate);
      expect(trouble).toEqual([]);
      await close();
    },
  );

  deepTest('a workbook is saved, and opened again with the same cell; a zip too', async () => {
    const { page, trouble, close } = await openPage(browser(), wash);
    const rate = await rateOf(page);
    await page.click('.menu > summary');
    for (const [button, file] of [
      ['A workbook (.xlsx)', 'wash-line.xlsx'],
      ['The tables as a zip', 'wash-line.zip'],
    ] as const) {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: button }).click(),
      ]);
      expect(download.suggestedFilename()).toBe(file);
      await download.saveAs(join(cwd, file));
      const other = await openPage(browser(), empty);
      await other.page.setInputFiles('input[accept]', join(cwd, file));
      expect(await rateOf(other.page)).toBe(rate);
      expect(await other.page.inputValue('input.name')).toBe('wash-line');
      await other.close();
    }
    const said = await runIn(cwd, ['schedule', 'wash-line.xlsx']);
    expect(said.exit).toBe(0);
    expect(trouble).toEqual([]);
    await close();
  });

  deepTest('a folder, tables or a zip are opened by a drop', async () => {
    mkdirSync(join(cwd, 'zipped'), { recursive: true });
    const zip = join(cwd, 'zipped', 'wash-line.zip');
    const tables = readdirSync(data('wash-line')).filter((file) => file.endsWith('.csv'));
    const bytes = (file: string): Uint8Array => new Uint8Array(readFileSync(join(data('wash-line'), file)));
    writeFileSync(zip, zipSync(Object.fromEntries(tables.map((file) => [file, bytes(file)]))));
    const loose = tables.map((file) => join(data('wash-line'), file));
    for (const [files, name] of [
      [[data('wash-line')], 'wash-line'],
      [[zip], 'wash-line'],
      [loose, 'my-cell'],
    ] as const) {
      const { page, trouble, close } = await openPage(browser(), empty);
      const pointer = await page.context().newCDPSession(page);
      for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
        await pointer.send('Input.dispatchDragEvent', {
          type,
          x: 300,
          y: 300,
          data: { items: [], files: [...files], dragOperationsMask: 1 },
        });
      await rateOf(page);
      expect(await page.inputValue('input.name')).toBe(name);
      expect(trouble).toEqual([]);
      await close();
    }
  });

  deepTest('a link carries the cell', async () => {
    const { page, close } = await openPage(browser(), wash);
    const rate = await rateOf(page);
    await page.click('.menu > summary');
    await page.evaluate(() => {
      Object.defineProperty(navigator, 'clipboard', {
        value: { writeText: () => Promise.reject(new Error()) },
      });
    });
    await page.getByRole('button', { name: 'Copy a link' }).click();
    await page.waitForFunction(() => location.hash.length > 10);
    const hash = new URL(page.url()).hash;
    expect(hash.length).toBeLessThan(8192);
    const other = await openPage(browser(), empty, {}, hash);
    expect(await rateOf(other.page)).toBe(rate);
    await other.close();
    // Letters at random cannot be packed.
    const long = Array.from({ length: 12_000 }, (_, k) => ((k * k * 7919) % 35_999).toString(36)).join('');
    await page.getByRole('textbox', { name: 'Name of the cell' }).fill(long);
    await page.keyboard.press('Tab');
    await page.getByRole('button', { name: 'Copy a link' }).click();
    await page.locator('[role=status]', { hasText: 'cut links of more than 8 kB' }).waitFor();
    await close();
  });

  deepTest('a pinned state is held against the changed one as `compare` does, and gone back to', async () => {
    const { page, trouble, close } = await openPage(browser(), wash);
    const rate = await rateOf(page);
    await page.click('#answer-compare > summary');
    await page.getByRole('button', { name: 'Pin', exact: true }).click();
    await page.getByRole('tab', { name: /^robot/ }).click();
    const hands = page.getByLabel('value, row 1', { exact: true });
    await hands.fill('2');
    await hands.press('Enter');
    await page.locator('.variant li', { hasText: 'robot.hands: 1, then 2' }).waitFor();
    await page.locator('#answer-compare .piece table').first().waitFor();
    expect(await page.textContent('#answer-compare .piece thead')).toContain('before');
    await page.getByRole('button', { name: 'Go back to before' }).click();
    await expect.poll(() => rateOf(page), { timeout: HANGS_MS }).toBe(rate);
    expect(trouble).toEqual([]);
    await close();
  });

  deepTest('saved with the cell in it, the page opens with the changed cell', async () => {
    const { page, close } = await openPage(browser(), wash);
    await rateOf(page);
    await page.getByRole('textbox', { name: 'Name of the cell' }).fill('wash </script> two');
    await page.keyboard.press('Tab');
    await page.click('.menu > summary');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'This page with the cell in it' }).click(),
    ]);
    const path = join(cwd, 'saved.html');
    await download.saveAs(path);
    const again = await openPage(browser(), path);
    expect(await rateOf(again.page)).toBe(await rateOf(page));
    expect(await again.page.inputValue('input.name')).toBe('wash </script> two');
    expect(again.trouble).toEqual([]);
    await again.close();
    await close();
  });

  deepTest('what was on the page is offered at the next opening', async () => {
    const { page, close } = await openPage(browser(), empty);
    await oneMachine(page);
    await rateOf(page);
    await page.waitForFunction(() => localStorage.length > 0);
    await page.reload();
    await page.getByRole('button', { name: 'Go on with my-cell' }).click();
    await rateOf(page);
    await close();
  });

  deepTest('what was changed on a page that came with its cell is offered at the next opening', async () => {
    const { page, close } = await openPage(browser(), wash);
    await page.getByRole('tab', { name: /^robot/ }).click();
    const hands = page.getByLabel('value, row 1', { exact: true });
    await hands.fill('2');
    await hands.press('Enter');
    await page.waitForFunction(() => localStorage.length > 0);
    await page.reload();
    await page.getByRole('tab', { name: /^robot/ }).click();
    expect(await hands.inputValue()).toBe('1');
    await page.getByRole('button', { name: 'Go on with them' }).click();
    expect(await hands.inputValue()).toBe('2');
    expect(await page.locator('.offer').count()).toBe(0);
    await close();
  });

  deepTest('axe-core finds nothing amiss, by day and by night', async () => {
    const { page, close } = await openPage(browser(), wash, { bypassCSP: true, colorScheme: 'light' });
    await rateOf(page);
    await page.locator('#answer-schedule .piece figure').first().waitFor();
    await page.evaluate(axe.source);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      const amiss = await page.evaluate(async () => {
        const loaded = globalThis as unknown as {
          axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
        };
        const { violations } = await loaded.axe.run();
        return violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 200)}`);
      });
      expect(amiss, colorScheme).toEqual([]);
    }
    await close();
  });
});

/** Numbers to 12 digits: engines of scripts differ in the last one of a power. */
function unpacked(bytes: Uint8Array): Record<string, string> {
  const rounded = (text: string): string =>
    text.replace(/\d+\.\d{9,}/g, (number) => Number(number).toPrecision(12));
  return Object.fromEntries(
    Object.entries(unzipSync(bytes)).map(([name, part]) => [name, rounded(strFromU8(part))]),
  );
}
