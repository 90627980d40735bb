// `check` and `points` as text, and the report's files: all there, the same every time, nothing that runs in a spreadsheet.
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { CostCaseFound } from '../../src/core/cost/result.js';
import { points } from '../../src/core/points/points.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import type { ShiftPatterns } from '../../src/core/shifts/shift-patterns.js';
import type { SizeResult } from '../../src/core/size/size-cell.js';
import { cellText } from '../../src/render/cell.js';
import { renderPoints } from '../../src/render/points.js';
import { type CellResults, reportFiles } from '../../src/render/report-files.js';
import { plainStyle } from '../../src/render/text-style.js';
import { readCell } from '../../src/tables/read-cell.js';
import { soundTables } from '../tables/sound-tables.js';

const cell = readCell(soundTables);
const stored = <T>(name: string): T =>
  JSON.parse(readFileSync(new URL(`fixtures/${name}.json`, import.meta.url), 'utf8')) as T;

test('check tells what the cell is', () => {
  expect(
    cellText(cell, ['stations.csv', 'routes.csv'], plainStyle),
  ).toBe(`The tables are sound: stations.csv and routes.csv.
One robot with one hand; 1 infeed (rack), 2 machines (mill_1, mill_2), 1 bench
(gauge), 1 held station (brush) and 1 outfeed (done).
Parts: cap (3 steps between infeed and outfeed).
Shift patterns: two.
Changeovers of 1 machine and 4 cost items are given.
`);
});

test('points without the data sheet of a box say what cannot be said', () => {
  const text = renderPoints(points(cell), plainStyle);
  expect(text).toContain('How many boxes are needed cannot be said without the data sheet of the box.');
  // 24 V, 8 mA, 12 m there and back: one input, no output, no box counted.
  expect(text).toMatch(/^mill_1 +1 +0 +- +- +- +0\.01 /m);
});

test('points of no signal at all', () => {
  expect(renderPoints(points({ ...cell, signals: [] }), plainStyle)).toBe(
    'There are no points to count: signals.csv names no signal.\n',
  );
});

describe('report files', () => {
  const results: CellResults = {
    name: '=a cell',
    currency: 'EUR',
    schedule: stored<ScheduleFound>('demo'),
    shifts: stored<ShiftPatterns>('demo-shifts'),
    size: stored<SizeResult>('figures-size'),
    costCase: stored<CostCaseFound>('demo-cost'),
    files: [{ file: 'costs.csv', sha256: '0'.repeat(64) }],
    program: 'roundsman 0',
  };
  const files = reportFiles(results);

  test('all of them, none empty', () => {
    expect(Object.keys(files).sort()).toEqual([
      'answer.txt',
      'cost-case.html',
      'cost-case.md',
      'results.json',
      'round.csv',
      'schedule.txt',
      'shifts.csv',
      'shifts.txt',
      'size.csv',
      'stations.csv',
    ]);
    for (const [name, text] of Object.entries(files)) expect(text.endsWith('\n'), name).toBe(true);
  });

  test('the time that the search took is in none of them', () => {
    const slower = { ...results, schedule: { ...results.schedule, searched: { nodes: 1, seconds: 99 } } };
    expect(reportFiles(slower)).toEqual(files);
  });

  test('every caution of a report is in the answer', () => {
    expect(files['answer.txt'].match(/^- .*licensed|^Cautions$/gm)).toContain('Cautions');
    expect(files['answer.txt'].replace(/\s+/g, ' ')).toContain('does not replace a risk assessment');
  });

  test('the rows of a CSV have one width, and its figures are those of the result', () => {
    for (const name of ['round.csv', 'stations.csv', 'shifts.csv', 'size.csv']) {
      const widths = files[name]
        .trimEnd()
        .split('\n')
        .map((line) => line.replace(/"[^"]*"/g, '').split(',').length);
      expect(new Set(widths).size, name).toBe(1);
    }
    const lathe = files['stations.csv'].split('\n').find((line) => line.startsWith('lathe_1,'))!;
    expect(Number(lathe.split(',')[2])).toBe(
      results.schedule.stations.find((s) => s.station === 'lathe_1')!.processingS,
    );
  });

  test('without a cost case there is no page on it', () => {
    expect(Object.keys(reportFiles({ ...results, costCase: null }))).not.toContain('cost-case.md');
  });
});
