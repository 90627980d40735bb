// The page of the demo cell in a real browser: its size, from opening to the first rate, and from a move of a dragged
// station to the new rate beside the pointer. Medians of several runs; the browser is Debian's, or the one that
// CHROME_PATH names.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const OPENINGS = process.argv.includes('--quick') ? 3 : 11;
const MOVES = process.argv.includes('--quick') ? 10 : 40;

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
const folder = mkdtempSync(join(tmpdir(), 'page-bench-'));
const file = join(folder, 'demo.html');
execFileSync(process.execPath, [`${root}/dist/cli/main.js`, 'page', `${root}/data/demo`, '--out', file]);
console.log(
  `size ${Math.round(statSync(file).size / 1000)} kB (empty ${Math.round(statSync(`${root}/dist/page/cell.html`).size / 1000)} kB)`,
);

const browser = await chromium.launch({
  executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage'],
});
try {
  const shown = [];
  const rated = [];
  for (let k = 0; k < OPENINGS; k++) {
    const page = await browser.newPage();
    await page.goto(pathToFileURL(file).href);
    await page.locator('.rate .figure strong').waitFor();
    const times = await page.evaluate(() => ({
      shown: performance.getEntriesByName('first-contentful-paint')[0]?.startTime,
      rated: performance.now(),
    }));
    shown.push(times.shown);
    rated.push(times.rated);
    await page.close();
  }
  console.log(
    `opening to first drawing ${Math.round(median(shown))} ms, to first rate ${Math.round(median(rated))} ms (median of ${OPENINGS})`,
  );
  console.log(`drag to new rate ${Math.round(median(await dragTimes()))} ms (median of ${MOVES} moves)`);
} finally {
  await browser.close();
  rmSync(folder, { recursive: true });
}

/** From each move of the pointer to the next change of a rate on the page. */
async function dragTimes() {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(pathToFileURL(file).href);
  await page.locator('.rate .figure strong').waitFor();
  await page.evaluate(() => {
    window.seen = { from: null, times: [] };
    addEventListener('pointermove', () => (window.seen.from ??= performance.now()), true);
    new MutationObserver((changes) => {
      const isRate = changes.some(({ target }) => target.parentElement?.closest('.rate .figure, .held-rate'));
      if (!isRate || window.seen.from === null) return;
      window.seen.times.push(performance.now() - window.seen.from);
      window.seen.from = null;
    }).observe(document.body, { subtree: true, characterData: true });
  });
  const box = await page.locator('.spot .touch').first().boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const counted = () => page.evaluate(() => window.seen.times.length);
  // Each place once there and once back; a move that leaves the rate as it is changes nothing on the page and is not counted.
  for (let k = 0; k < 4 * MOVES && (await counted()) < MOVES; k++) {
    const before = await counted();
    await page.evaluate(() => (window.seen.from = null));
    await page.mouse.move(x + 12 * ((k % 10) - 5), y + 18 * (k % 7));
    for (let wait = 0; wait < 40 && (await counted()) === before; wait++) await page.waitForTimeout(25);
  }
  const times = await page.evaluate(() => window.seen.times);
  if (times.length < MOVES / 2) throw new Error(`only ${times.length} moves changed the rate`);
  await page.mouse.up();
  await page.close();
  return times;
}
