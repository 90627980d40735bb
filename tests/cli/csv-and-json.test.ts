// A figure in the table for a spreadsheet is the figure of `--json`, under its own heading.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const starter = (name: string): string => join(data('starter'), name);
const rowsOf = (file: string): Record<string, string>[] =>
  parse(readFileSync(join(cwd, file), 'utf8'), { columns: true, comment: '#', comment_no_infix: true });
const shown = (value: number | string | null | undefined, digits: number): string =>
  typeof value === 'number' ? String(Number(value.toFixed(digits)) + 0) : (value ?? '');

async function json(...args: string[]) {
  const said = await runIn(cwd, [...args, '--json']);
  expect(said.err).toBe('');
  return JSON.parse(said.out);
}

test('readings', async () => {
  const { elements } = await json('readings', starter('readings.csv'), '--out', 'readings');
  const rows = rowsOf('readings/readings-figures.csv');
  expect(rows.length).toBe(elements.length);
  for (const [k, e] of elements.entries()) {
    const expected = {
      ...{ fit_sd_s: e.fit.sd, fit_mean_s: e.fit.mean, distribution: e.fit.distribution },
      ...{ needed_n: e.neededN, more_n: e.moreN, outliers: e.outliers.length, normal_s: e.normal.mean },
      ...{ standard_s: e.standardS, max_s: e.max, median_s: e.median, min_s: e.min, cv_pct: e.cvPct },
      ...{ ci_high_s: e.ciHigh, ci_low_s: e.ciLow, sd_s: e.sd, mean_s: e.mean, n: e.n, element: e.element },
    };
    for (const [heading, value] of Object.entries(expected))
      expect(rows[k]![heading], `${e.element}: ${heading}`).toBe(shown(value, 6));
  }
});

test('a log of signals', async () => {
  const { stations } = await json('log', starter('log.csv'), '--out', 'log');
  const rows = rowsOf('log/log-figures.csv');
  let held = 0;
  for (const { station, times } of stations)
    for (const [element, m] of Object.entries<Record<string, number> | null>(times)) {
      if (m === null) continue;
      held++;
      const row = rows.find((r) => r.station === station && r.element === element && r.part === '')!;
      const expected = {
        ...{ total_s: m.total, max_s: m.max, p90_s: m.p90, p50_s: m.p50, p10_s: m.p10, min_s: m.min },
        ...{ ci_high_s: m.ciHigh, ci_low_s: m.ciLow, sd_s: m.sd, mean_s: m.mean, n: m.n },
      };
      for (const [heading, value] of Object.entries(expected))
        expect(row[heading], `${station}, ${element}: ${heading}`).toBe(shown(value, 4));
    }
  expect(held).toBeGreaterThan(5);
});

test('a sweep', async () => {
  const axes = ['--sweep', 'routes.sleeve.2.cycle_s=60,90', '--sweep', 'stations.lathe.close_s=2,4'];
  const paths = ['schedule.periodS', 'schedule.partsPerH.total', 'schedule.robot.waitS'];
  const asked = [...axes, ...paths.flatMap((path) => ['--figure', path]), '--workers', '1'];
  const result = await json('sweep', data('wash-line'), ...asked);
  await runIn(cwd, ['sweep', data('wash-line'), ...asked, '--out', 'sweep.csv']);
  const rows = rowsOf('sweep.csv');
  expect(rows.length).toBe(4);
  for (const [k, { values, figures, status }] of result.rows.entries()) {
    const expected = {
      ...Object.fromEntries(paths.map((path, f) => [path, shown(figures[f], 6)])),
      ...{ 'routes.sleeve.2.cycle_s': values[0], 'stations.lathe.close_s': values[1] },
      ...{ status, point: String(k + 1) },
    };
    expect(rows[k]).toEqual(expected);
  }
});
