/** What we write of tables and logs runs in no spreadsheet, and names in it come back as they were. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { guarded, unguarded } from '../../src/core/model/formula-guard.js';
import { readCell } from '../../src/tables/read-cell.js';
import { tableText } from '../../src/tables/table-text.js';
import { readLog, simulatedLog } from '../support/simulated-log.js';

const NAMES = [
  '=1+1',
  '+mill',
  '-mill',
  '@mill',
  "'=mill",
  "''+mill",
  '=cmd|',
  '＝mill',
  'mill',
  "'mill",
  '-5',
];

describe('a text that a spreadsheet would run', () => {
  test('is never left as it is, and comes back the same', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom("'", '=', '+', '-', '@', ' ', 'a', '1') }), (text) => {
        expect(guarded(text)).not.toMatch(/^\s*[=+\-@]/);
        expect(unguarded(guarded(text))).toBe(text);
      }),
    );
  });

  test.each(NAMES.filter((name) => !name.includes('|')))('as the name of a station: %s', (name) => {
    const stations = [
      ['station', 'kind'],
      ['in', 'infeed'],
      [name, 'machine'],
      ['out', 'outfeed'],
    ];
    const routes = [
      ['part', 'step', 'stations', 'cycle_s', 'load_s', 'unload_s'],
      ['@cap', '1', 'in', '', '', '4'],
      ['@cap', '2', name, '60', '5', '5'],
      ['@cap', '3', 'out', '', '4', ''],
    ];
    const texts = {
      'stations.csv': tableText(stations),
      'routes.csv': tableText(routes),
      'robot.csv': 'setting,value\ntravel_s,3\n',
    };
    const cells = Object.values(texts).flatMap((text) =>
      text
        .trimEnd()
        .split('\n')
        .flatMap((l) => l.split(',')),
    );
    for (const cell of cells) if (cell !== '-5') expect(cell).not.toMatch(/^\s*[=+\-@＝]/);
    const cell = readCell(texts);
    expect(cell.stations[1]!.name).toBe(name);
    expect(cell.routes[0]!.part).toBe('@cap');

    const log = simulatedLog(cell, { hours: 0.1, program: 'first', seed: 1 });
    const fields = log
      .trimEnd()
      .split('\n')
      .flatMap((line) => line.split(','));
    expect(fields.filter((field) => field !== '-5' && /^"?[=+\-@＝]/.test(field))).toEqual([]);
    expect(fields.length).toBeGreaterThan(30);
    const { result } = readLog(log, cell);
    expect(result.stations.map((s) => s.station)).toContain(name);
  });
});
