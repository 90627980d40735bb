/** Any number of threads gives the same result; a stop signal gives what is done. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { simulateCell } from '../../src/core/simulate/simulate-cell.js';
import { replicationPool } from '../../src/workers/replication-pool.js';
import { likeMachines } from '../core/simulate/cells.js';

const cell = likeMachines(3, 60, 8, {
  variation: [{ station: '*', element: 'cycle', distribution: 'exponential', parameters: [60] }],
});

let folder = '';
let workerFile = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'replications-'));
  workerFile = join(folder, 'replication-worker.mjs');
  buildSync({
    entryPoints: [fileURLToPath(new URL('../../src/workers/replication-worker.ts', import.meta.url))],
    bundle: true,
    format: 'esm',
    platform: 'node',
    outfile: workerFile,
    logLevel: 'error',
  });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('replications on threads', () => {
  it('give the same with no thread, one, two and five', async () => {
    const options = { program: 'first' as const, hours: 16, halfWidthPct: 1, replications: 40, seed: 3 };
    const fixed = { nowMs: () => 0 };
    const here = await simulateCell(cell, options, fixed);
    for (const workers of [1, 2, 5]) {
      const pool = replicationPool({ workers, workerFile });
      const there = await simulateCell(cell, options, { ...fixed, run: pool.run });
      await pool.close();
      expect(there).toEqual(here);
    }
  });

  it('tell their progress, and end on a signal', async () => {
    const pool = replicationPool({ workers: 2, workerFile });
    const stop = new AbortController();
    const seen: number[] = [];
    const result = await simulateCell(
      cell,
      { program: 'first', hours: 400, replications: 400, warmupH: 1 },
      {
        run: pool.run,
        signal: stop.signal,
        onProgress: (done) => {
          seen.push(done);
          if (seen.length === 2) stop.abort();
        },
      },
    );
    await pool.close();
    expect(seen.length).toBeGreaterThanOrEqual(2);
    expect(result.complete).toBe(false);
    expect(result.replications).toBeGreaterThan(0);
    expect(result.replications).toBeLessThan(400);
  });

  it('refuse a number of threads that is none', () => {
    expect(() => replicationPool({ workers: 0 })).toThrow(
      'worker threads must be a whole number from 1 to 256, found 0',
    );
  });
});
