import { readdirSync, readFileSync } from 'node:fs';
import { register } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { COMPILE_LATER } from '../src/cli/compile-later.js';

const root = fileURLToPath(new URL('..', import.meta.url));

// Tests and program are modules of Node itself, here (the shared folder) and in the workers.
register('./support/typescript-hooks.mjs', import.meta.url);
const TYPESCRIPT = new URL('./support/typescript.mjs', import.meta.url).href;

/** Files that do more in the deep run and in the long one: those that ask tests/support/size.ts how much. */
function deepFiles(): string[] {
  return readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.test.ts'))
    .map((file) => join('tests', file).replaceAll('\\', '/'))
    .filter((file) => readFileSync(join(root, file), 'utf8').includes('/support/size.js'));
}

/** What takes long, longest first: begun first, so that in the end no worker waits for the other. */
const LONG = ['browser/cell-page', 'browser/', 'cli/', 'relations/', 'core/schedule/', 'core/size/', 'core/'];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification): number =>
      LONG.concat('').findIndex((start) => moduleId.includes(`/tests/${start}`));
    return files.sort((a, b) => place(a) - place(b) || (a.moduleId < b.moduleId ? -1 : 1));
  }
}

// `npm test` is the quick run, `--mode deep` and `--mode long` are the larger ones; see tests/support/size.ts. `--mode fixtures`
// writes the stored results anew; see tests/render/fixtures.test.ts.
const isLarger = (mode: string): boolean => mode === 'deep' || mode === 'long';

export default defineConfig(({ mode }) => ({
  root,
  test: {
    include: isLarger(mode) ? deepFiles() : ['tests/**/*.test.ts'],
    env: {
      TEST_SIZE: isLarger(mode) ? mode : 'quick',
      RENEW_FIXTURES: mode === 'fixtures' ? 'yes' : 'no',
    },
    globalSetup: ['tests/support/shared-folder.ts'],
    setupFiles: ['tests/support/property-seed.ts'],
    sequence: { sequencer: LongestFirst },
    // The program keeps no state between calls, and reading it anew for each file takes longer than most files do.
    isolate: false,
    // For what hangs alone: the slowest test takes some seconds, and a busy machine a good deal longer.
    testTimeout: isLarger(mode) ? 3_600_000 : 300_000,
    hookTimeout: isLarger(mode) ? 3_600_000 : 300_000,
    // Two cores; in the quick run workers often wait for a browser or a process of the program.
    maxWorkers: isLarger(mode) ? 2 : 3,
    experimental: { viteModuleRunner: false, nodeLoader: false },
    execArgv: [
      // Thousands of short pieces of work repay little compiling either: it takes an eighth off the quick run.
      ...(isLarger(mode) ? [] : COMPILE_LATER),
      ...['--enable-source-maps', '--import', TYPESCRIPT],
    ],
  },
}));
