// One browser for the tests of a file: Debian's chromium, or the one that CHROME_PATH names.
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { findProgram } from './find-program.js';

const path = findProgram(process.env.CHROME_PATH, ['chromium', 'chromium-browser', 'google-chrome']);
const isCi = process.env.CI === 'true';
const REASON =
  'no chromium was found on the PATH and CHROME_PATH names none, so the tests in a real browser are left out';

/** What is waited for in a page comes in the end, however slow the machine: this is for what hangs. */
export const HANGS_MS = 280_000;

/** Tests that need a browser: left out with a word where there is none, a failure where CI=true says there must be one. */
export function inBrowser(name: string, tests: (browser: () => Browser) => void): void {
  if (path === null && !isCi) {
    process.stderr.write(`${name}: ${REASON}.\n`);
    describe.skip(`${name} (${REASON})`, () => tests(() => missing()));
    return;
  }
  describe(name, () => {
    let browser: Browser | undefined;
    beforeAll(async () => {
      if (path === null) missing();
      // A root user, as in a container, has no sandbox.
      browser = await chromium.launch({
        executablePath: path!,
        args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage'],
      });
    });
    afterAll(() => browser?.close());
    tests(() => browser!);
  });
}

function missing(): never {
  throw new Error(REASON);
}
