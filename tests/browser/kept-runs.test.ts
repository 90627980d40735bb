// The simulation of the page, whose interval narrows as it runs: each answer goes on from the runs of the one before,
// and is what a simulation of so many runs gives by itself.
import { expect, test } from 'vitest';
import { simulateAnswer } from '../../src/browser/engine/answers.js';
import { keptRuns } from '../../src/browser/engine/kept-runs.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { quickTables } from '../support/quick-shop.js';
import { withoutClock } from './cell-page.js';

test('runs are kept, the answers are those of a simulation by itself, and more runs narrow the interval', async () => {
  const { cell } = inspectTables(quickTables());
  const outcome = bestSchedule(cell!, { improvements: false });
  const kept = keptRuns();
  let [asked, made] = [0, 0];
  const counted: typeof kept = {
    ...kept,
    run: async (job, numbers, watch) => {
      asked += numbers.length;
      return kept.run(job, numbers, {
        ...watch,
        onDone: () => {
          made += 1;
        },
      });
    },
  };
  const widths: number[] = [];
  let last: unknown = null;
  for (const runs of [2, 4]) {
    last = withoutClock(await simulateAnswer(cell!, outcome, counted, runs));
    const { fields } = (last as Awaited<ReturnType<typeof simulateAnswer>>).result;
    const { ciLow, ciHigh } = (fields.partsPerShift as { total: { ciLow: number; ciHigh: number } }).total;
    widths.push(ciHigh - ciLow);
  }
  expect(last).toEqual(withoutClock(await simulateAnswer(cell!, outcome, {}, 4)));
  // Of 4 runs the 2 that were there before were not made again.
  expect(asked / made).toBeCloseTo((2 + 4) / 4, 9);
  expect(widths[1]!).toBeLessThan(widths[0]!);
});
