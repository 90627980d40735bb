/** Any number of threads gives the same result; a stop signal gives what is done. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_CSV } from '../../src/core/model/csv-form.js';
import { runJob } from '../../src/core/simulate/replication-job.js';
import { preparedJob, simulateCell } from '../../src/core/simulate/simulate-cell.js';
import { resolveOptions } from '../../src/core/simulate/simulation-options.js';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { replicationsOn } from '../../src/workers/replications.js';
import runPoints from '../../src/workers/sweep-share.js';
import { workPool } from '../../src/workers/work-pool.js';
import { likeMachines } from '../core/simulate/cells.js';
import { quickShop } from '../support/quick-shop.js';
import { atSize } from '../support/size.js';

const cell = likeMachines(3, 60, 8, {
  variation: [{ station: '*', element: 'cycle', distribution: 'exponential', parameters: [60] }],
});

let folder = '';
let workerFile = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'replications-'));
  workerFile = join(folder, 'study-worker.mjs');
  buildSync({
    entryPoints: [fileURLToPath(new URL('../../src/workers/study-worker.ts', import.meta.url))],
    bundle: true,
    format: 'esm',
    platform: 'node',
    outdir: folder,
    splitting: true,
    outExtension: { '.js': '.mjs' },
    logLevel: 'error',
  });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('replications on threads', () => {
  it('give the same with no thread and with several', async () => {
    const options = { program: 'first' as const, hours: 8, halfWidthPct: 2, replications: 20, seed: 3 };
    const fixed = { nowMs: () => 0 };
    const here = await simulateCell(cell, options, fixed);
    for (const workers of atSize([2], [1, 2, 5])) {
      const pool = workPool({ workers, workerFile });
      const there = await simulateCell(cell, options, { ...fixed, run: replicationsOn(pool) });
      await pool.close();
      expect(there).toEqual(here);
    }
  });

  it('tell their progress, and end on a signal', async () => {
    const pool = workPool({ workers: 2, workerFile });
    const stop = new AbortController();
    const seen: number[] = [];
    const result = await simulateCell(
      cell,
      { program: 'first', hours: 40, replications: 400, warmupH: 1 },
      {
        run: replicationsOn(pool),
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
    expect(() => workPool({ workers: 0 })).toThrow(
      'worker threads must be a whole number from 1 to 256, found 0',
    );
  });
});

it('one pool takes replications, points of a sweep and a log, and gives what this thread gives', async () => {
  const shop = quickShop(join(folder, 'shop'));
  const { layers } = await readCellFolder(shop, []);
  const points = ['0', '40', '80'].map((value, k) => ({ number: k + 1, values: [value] }));
  const paths = ['stations.mill_1.ready_s'];
  const asked = { layers: layers!, settings: [], paths, figures: ['schedule.periodS'], nodes: 1000 };
  const pool = workPool({ workers: 2, workerFile });
  const shares = points.map((point) => ({ ...asked, points: [point] }));
  const job = { ...preparedJob(cell, resolveOptions({ program: 'first', hours: 8 })).job };
  const path = join(folder, 'log.csv');
  const [swept, runs, log] = await Promise.all([
    pool.runAll('points', shares),
    replicationsOn(pool)(job, [0, 1, 2]),
    pool.run('log', { job, start: null, form: PLAIN_CSV, path }),
  ]);
  await pool.close();
  expect(swept.flat()).toEqual(await runPoints({ ...asked, points }));
  expect(new Set(swept.flat().map(({ figures }) => figures[0])).size).toBe(3);
  expect(runs).toEqual(runJob(job, [0, 1, 2]));
  expect(log).toEqual({ records: readFileSync(path, 'utf8').trim().split('\n').length - 2 });
});
