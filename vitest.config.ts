import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('.', import.meta.url));

/** Files that do more in the deep run: those that ask tests/support/size.ts how much. */
function deepFiles(): string[] {
  return readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.test.ts'))
    .map((file) => join('tests', file).replaceAll('\\', '/'))
    .filter((file) => readFileSync(join(root, file), 'utf8').includes('/support/size.js'));
}

// `vitest run` is the quick run, `vitest run --mode deep` the deep one; see tests/support/size.ts.
export default defineConfig(({ mode }) => ({
  test: {
    include: mode === 'deep' ? deepFiles() : ['tests/**/*.test.ts'],
    env: { TEST_SIZE: mode === 'deep' ? 'deep' : 'quick' },
    setupFiles: ['tests/support/property-seed.ts'],
    // The program keeps no state between calls, and reading it anew for each file takes longer than most files do.
    isolate: false,
    // For what hangs alone: the slowest test takes some seconds, and a busy machine a good deal longer.
    testTimeout: mode === 'deep' ? 1_200_000 : 300_000,
    hookTimeout: mode === 'deep' ? 1_200_000 : 300_000,
    maxWorkers: 2,
  },
}));
