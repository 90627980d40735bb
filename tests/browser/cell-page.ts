// The page of a cell opened from disk in a real browser, as a user would open it.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { expect } from 'vitest';
import { runIn } from '../cli/run-in.js';
import { HANGS_MS } from './chromium.js';

export interface OpenedPage {
  readonly page: Page;
  /** Console messages, errors, refusals of the policy, and addresses asked for. */
  readonly trouble: string[];
  close(): Promise<void>;
}

/** @param path of the file */
export async function openPage(
  browser: Browser,
  path: string,
  options: BrowserContextOptions = {},
  hash = '',
): Promise<OpenedPage> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  context.setDefaultTimeout(HANGS_MS);
  const page = await context.newPage();
  const trouble: string[] = [];
  const own = pathToFileURL(path).href;
  page.on('console', (message) => trouble.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => trouble.push(error.message));
  page.on('request', (request) => {
    if (request.url().split('#')[0] !== own && !request.url().startsWith('blob:'))
      trouble.push(request.url());
  });
  await page.goto(`${own}${hash}`);
  return { page, trouble, close: () => context.close() };
}

/** Writes the page of a folder with the command. @returns its path */
export async function pageOf(
  cwd: string,
  folder: string,
  name: string,
  ...options: readonly string[]
): Promise<string> {
  const said = await runIn(cwd, ['page', folder, '--out', name, ...options]);
  expect(said.err).toBe('');
  expect(said.exit).toBe(0);
  return join(cwd, name);
}

/** The finished result of a question as the page saves it. */
export async function savedResult(page: Page, question: string): Promise<Record<string, unknown>> {
  const section = page.locator(`#answer-${question}`);
  if ((await section.getAttribute('open')) === null) await section.locator('> summary').click();
  const button = section.getByRole('button', { name: 'Save this result as JSON' });
  await button.waitFor({ timeout: 900_000 });
  const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
  return JSON.parse(readFileSync(await download.path(), 'utf8')) as Record<string, unknown>;
}

/** A result without what depends on the speed of the machine. */
export function withoutClock(result: unknown): unknown {
  return JSON.parse(
    JSON.stringify(result, (key, value) => (key === 'seconds' || key === 'eventsPerSecond' ? 0 : value)),
  );
}
