/** A cell written to CSV and read back is the same cell; whatever else is given, the reader answers with complaints. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { guarded, unguarded } from '../../src/core/model/formula-guard.js';
import { renderComplaints } from '../../src/render/complaints.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { tableFiles } from '../../src/tables/table-formats.js';
import { anyText } from '../support/any-text.js';
import { cases } from '../support/size.js';
import { soundTables } from './sound-tables.js';

type Value = string | number | null;

interface Form {
  readonly delimiter: ',' | ';';
  readonly lineEnd: '\n' | '\r\n';
  readonly decimalComma: boolean;
  readonly quoteAll: boolean;
}

const form: fc.Arbitrary<Form> = fc.record({
  delimiter: fc.constantFrom<',' | ';'>(',', ';'),
  lineEnd: fc.constantFrom<'\n' | '\r\n'>('\n', '\r\n'),
  decimalComma: fc.boolean(),
  quoteAll: fc.boolean(),
});

function cellOf(value: Value, { delimiter, decimalComma, quoteAll }: Form): string {
  if (value === null) return '';
  const isComma = typeof value === 'number' && decimalComma && delimiter === ';';
  // An apostrophe before a sign that starts a formula is the guard of the cell, so one of the name's own comes after it.
  const name = unguarded(String(value)) === String(value) ? String(value) : guarded(String(value));
  const text = isComma ? name.replace('.', ',') : name;
  return quoteAll || /["\n,;]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function csv(rows: readonly (readonly Value[])[], how: Form): string {
  return rows.map((row) => row.map((value) => cellOf(value, how)).join(how.delimiter) + how.lineEnd).join('');
}

/** Names with the signs that CSV, spreadsheets and other scripts bring. */
const name = fc
  .string({ unit: fc.constantFrom(...'abcXYZ019 _-.",;\'/#=+@äßçñ漢字'), minLength: 1, maxLength: 20 })
  .map((text) => text.trim())
  .filter((text) => text !== '' && text !== '-' && text !== 'total' && !text.startsWith('#'));
const seconds = fc.double({ min: 0, max: 1e6, noNaN: true }).map((x) => Math.round(x * 100) / 100);
const metres = fc.integer({ min: -5000, max: 5000 }).map((mm) => mm / 1000);
const hundredths = fc.integer({ min: 0, max: 10000 }).map((x) => x / 100);

const cell = fc.uniqueArray(name, { minLength: 4, maxLength: 9 }).chain((stations) =>
  fc.record({
    stations: fc.constant(stations),
    parts: fc.uniqueArray(name, { minLength: 1, maxLength: 4 }),
    kinds: fc.array(fc.constantFrom('machine', 'bench', 'held'), { minLength: 9, maxLength: 9 }),
    times: fc.array(seconds, { minLength: 200, maxLength: 200 }),
    places: fc.array(metres, { minLength: 18, maxLength: 18 }),
    money: hundredths,
    hands: fc.constantFrom(1, 2),
  }),
);

type Drawn = typeof cell extends fc.Arbitrary<infer T> ? T : never;

/** The rows of the tables, and what must come out of them. */
function tablesOf({ stations, parts, kinds, times, places, money, hands }: Drawn, how: Form) {
  const [infeed, outfeed, ...middle] = stations as [string, string, ...string[]];
  const kindOf = (i: number) => (i === 0 ? 'infeed' : i === 1 ? 'outfeed' : (kinds[i] as string));
  const readyS = (i: number) => (kindOf(i) === 'held' ? 0 : times[i]!);
  const stationRows = stations.map((s, i) => [s, kindOf(i), places[2 * i]!, places[2 * i + 1]!, readyS(i)]);
  const steps = parts.flatMap((part, p) => [
    [part, 1, infeed, 0, 0, Math.max(1, times[20 + p]!), null],
    ...middle.map((s, i) => [
      part,
      i + 2,
      s,
      times[30 + i]!,
      times[40 + i]!,
      times[50 + i]!,
      i === 0 ? null : times[60 + i]!,
    ]),
    [part, 99, outfeed, 0, times[25 + p]!, 0, null],
  ]);
  const pairs = stations.flatMap((from, i) =>
    stations.flatMap((to, j) => (i < j ? [[from, to, times[70 + i + 9 * j]!]] : [])),
  );
  const tables = {
    'stations.csv': csv([['station', 'kind', 'x_m', 'y_m', 'ready_s'], ...stationRows], how),
    'routes.csv': csv(
      [['part', 'step', 'stations', 'cycle_s', 'load_s', 'unload_s', 'max_wait_s'], ...steps],
      how,
    ),
    'robot.csv': csv(
      [
        ['setting', 'value'],
        ['hands', hands],
        ['travel_s', times[199]!],
      ],
      how,
    ),
    'travel.csv': csv([['from', 'to', 'empty_s'], ...pairs], how),
    'parts.csv': csv([['part', 'contribution', 'yield_pct'], ...parts.map((p) => [p, money, money])], how),
  };
  return { tables, stationRows, steps, pairs };
}

describe('a cell written to CSV', () => {
  test('reads back as it was', () => {
    fc.assert(
      fc.property(cell, form, (drawn, how) => {
        const { tables, stationRows, steps, pairs } = tablesOf(drawn, how);
        const { cell: read, complaints } = inspectTables(tables);
        expect(complaints.filter((c) => c.code !== 'TRA04')).toEqual([]);
        expect(read?.stations.map((s) => [s.name, s.kind, s.xM, s.yM, s.readyS])).toEqual(stationRows);
        const readSteps = read?.routes.flatMap((r) =>
          r.steps.map((s) => [
            r.part,
            s.step,
            s.stations.join('|'),
            s.cycleS,
            s.loadS,
            s.unloadS,
            s.maxWaitS,
          ]),
        );
        expect(readSteps).toEqual(steps);
        expect(read?.travel.map((t) => [t.from, t.to, t.emptyS])).toEqual(pairs);
        expect(read?.parts.map((p) => [p.part, p.contribution, p.yieldPct])).toEqual(
          drawn.parts.map((p) => [p, drawn.money, drawn.money]),
        );
        expect(read?.robot).toMatchObject({ hands: drawn.hands, travelS: drawn.times[199] });
      }),
      { numRuns: cases(60) },
    );
  });
});

/** No null cell without an error, no error with a cell, and every complaint can be printed on a terminal. */
function expectAnswer(tables: Record<string, string>): void {
  const { cell: read, complaints } = inspectTables(tables);
  expect(complaints.some((c) => c.severity === 'error')).toBe(read === null);
  for (const { excerpt, text } of complaints) {
    expect(text).not.toMatch(/undefined|NaN|\[object/);
    if (excerpt === null) continue;
    expect(excerpt.start).toBeGreaterThanOrEqual(0);
    expect(excerpt.end).toBeGreaterThanOrEqual(excerpt.start);
    expect(excerpt.end).toBeLessThanOrEqual(excerpt.text.length);
  }
  const printed = renderComplaints(complaints, { colour: false });
  expect(printed).not.toMatch(/[^\n\P{Cc}]/u);
}

describe('anything else', () => {
  const file = fc.constantFrom(...tableFiles);

  test('random characters in the place of a table', () => {
    const text = fc.oneof(anyText(300), fc.string({ maxLength: 300 }));
    fc.assert(
      fc.property(file, text, (f, t) => expectAnswer({ ...soundTables, [f]: t })),
      { numRuns: cases(200) },
    );
  });

  test('random bytes, decoded', () => {
    const text = fc.uint8Array({ maxLength: 400 }).map((bytes) => new TextDecoder().decode(bytes));
    fc.assert(
      fc.property(file, text, (f, t) => expectAnswer({ ...soundTables, [f]: t })),
      { numRuns: cases(200) },
    );
  });

  test('a sound table with a piece of it replaced', () => {
    const piece = fc.oneof(
      fc.constantFrom(
        '"',
        '""',
        ',',
        ';',
        '\n',
        '|',
        '-',
        '\t',
        '#',
        '\u001b[2J',
        '\0',
        '\uFFFD',
        '__proto__',
        'constructor',
      ),
      fc.constantFrom('1e999', '-1', '0', 'nan', '*', '24:00', 'Mon-', ':', 'yes', 'x'.repeat(200)),
      fc.string({ unit: 'grapheme', maxLength: 5 }),
    );
    const cut = fc.record({ at: fc.nat(400), length: fc.nat(12), piece });
    fc.assert(
      fc.property(file, fc.array(cut, { minLength: 1, maxLength: 3 }), (f, cuts) => {
        const text = cuts.reduce(
          (t, c) => t.slice(0, c.at) + c.piece + t.slice(c.at + c.length),
          soundTables[f]!,
        );
        expectAnswer({ ...soundTables, [f]: text });
      }),
      { numRuns: cases(240) },
    );
  });

  test('tables in one another’s place', () => {
    for (const one of tableFiles)
      for (const other of tableFiles) expectAnswer({ ...soundTables, [one]: soundTables[other]! });
  });
});
