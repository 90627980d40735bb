// The page that carries the solver: it plans the mix and the jobs and writes a report with both, as the command line does.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { beforeAll, expect, test } from 'vitest';
import { data, freshFolder, runIn } from '../cli/run-in.js';
import { quickShop } from '../support/quick-shop.js';
import { atSize, deepTest, longTest } from '../support/size.js';
import { openPage, pageOf, savedResult, withoutClock } from './cell-page.js';
import { inBrowser } from './chromium.js';

const cwd = freshFolder();
const name = atSize('shop', 'starter');
const folder = atSize(join(cwd, name), data('starter'));

inBrowser('the page that carries the solver', (browser) => {
  let file: string;

  beforeAll(async () => {
    if (name === 'shop') quickShop(folder);
    file = await pageOf(cwd, folder, 'solving.html', '--solver');
  });

  test('mix and jobs equal those of the command line to the last bit', async () => {
    const { page, trouble, close } = await openPage(browser(), file);
    for (const question of atSize(['mix'], ['mix', 'jobs'])) {
      const said = await runIn(cwd, [question, folder, '--json']);
      expect(said.exit).toBe(0);
      const [ours, theirs] = [await savedResult(page, question), JSON.parse(said.out)].map(withoutClock);
      expect(ours, question).toEqual(theirs);
    }
    expect(trouble).toEqual([]);
    await close();
  }, 300_000);

  test('a page that carries none does not offer them, and says what a report needs', async () => {
    const { page, close } = await openPage(browser(), await pageOf(cwd, folder, 'plain.html'));
    await page.locator('.rate strong').waitFor();
    expect(await page.locator('#answer-costcase').count()).toBe(1);
    expect(await page.locator('#answer-jobs, #answer-mix').count()).toBe(0);
    await page.click('.menu > summary');
    await page.getByRole('button', { name: 'The whole report' }).click();
    await page.locator('[role=status]', { hasText: 'roundsman page --solver' }).waitFor();
    await close();
  });

  deepTest('saved with the cell in it, the page still carries it', async () => {
    const { page, close } = await openPage(browser(), file);
    await page.click('.menu > summary');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'This page with the cell in it' }).click(),
    ]);
    await download.saveAs(join(cwd, 'again.html'));
    const again = await openPage(browser(), join(cwd, 'again.html'));
    await again.page.locator('#answer-mix > summary').click();
    await again.page.locator('#answer-mix .piece h3, #answer-mix .piece table').first().waitFor();
    expect(again.trouble).toEqual([]);
    await again.close();
    await close();
  });

  longTest(
    'the report with mix and jobs is that of the command, to the letter',
    async () => {
      const { page, close } = await openPage(browser(), file);
      await page.locator('.rate strong').waitFor();
      await page.click('.menu > summary');
      const [download] = await Promise.all([
        page.waitForEvent('download', { timeout: 600_000 }),
        page.getByRole('button', { name: 'The whole report' }).click(),
      ]);
      const files = unzipSync(readFileSync(await download.path()));
      expect((await runIn(cwd, ['report', folder, '--out', 'report'])).exit).toBe(0);
      for (const one of readdirSync(join(cwd, 'report')).filter((of) => !/\.(xlsx|json)$/.test(of)))
        expect(
          strFromU8(files[`${name}/${one}`]!) === readFileSync(join(cwd, 'report', one), 'utf8'),
          one,
        ).toBe(true);
      await close();
    },
    900_000,
  );
});
