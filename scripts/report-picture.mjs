// docs/report.png, the picture of README.md: the first screen of a report, taken in chromium (on the PATH, or CHROME_PATH).
// Run after `npm run reports`: node scripts/report-picture.mjs [report.html]
import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const page = resolve(process.argv[2] ?? 'reports/report.html');
const executablePath =
  process.env.CHROME_PATH ?? execFileSync('which', ['chromium'], { encoding: 'utf8' }).trim();
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
const shown = await browser.newPage({ viewport: { width: 1100, height: 900 }, colorScheme: 'light' });
await shown.goto(pathToFileURL(page).href);
const bottom = await shown.evaluate(
  () => document.querySelector('nav').getBoundingClientRect().top + window.scrollY,
);
await shown.screenshot({
  path: 'docs/report.png',
  fullPage: true,
  clip: { x: 30, y: 10, width: 1040, height: Math.ceil(bottom) - 10 },
});
await browser.close();
