// The list of complaints by itself: their order, long runs of like ones, and which files hold an error.
import { expect, it } from 'vitest';
import type { ComplaintCode } from '../../src/tables/complaint-codes.js';
import { complaintList, type Fault } from '../../src/tables/complaint-list.js';
import { tableLimits } from '../../src/tables/limits.js';

interface At {
  readonly file?: string;
  readonly line?: number | null;
  readonly column?: string | null;
  readonly order?: number;
  readonly code?: ComplaintCode;
  readonly severity?: Fault['severity'];
}

type Told = readonly [text: string, at: At];

function listWith(...places: readonly Told[]) {
  const list = complaintList();
  for (const [text, at] of places) {
    const { file = 'a.csv', line = 2, column = 'value', order = 0, code = 'VAL01', severity } = at;
    const place = { file, line, column, order, excerpt: () => null };
    list.add(code, place, () => ({ code, text, help: null, ...(severity ? { severity } : {}) }));
  }
  return list;
}

const texts = (...places: readonly Told[]) =>
  listWith(...places)
    .sorted()
    .map(({ text }) => text);

it('goes by file, line and column, and what stands in one place as it was told', () => {
  expect(
    texts(
      ['b', { file: 'b.csv', line: 1 }],
      ['line 12', { line: 12 }],
      ['line 3, second column', { line: 3, order: 2 }],
      ['line 3, first column', { line: 3, order: 1, column: 'other' }],
      ['line 3, first column, told later', { line: 3, order: 1 }],
      ['the table', { line: null, order: 7 }],
      ['a', { file: '0.csv', line: 99 }],
    ),
  ).toEqual([
    'a',
    'the table',
    'line 3, first column',
    'line 3, first column, told later',
    'line 3, second column',
    'line 12',
    'b',
  ]);
});

it('counts like ones beyond a hundred: of one code, file and column', () => {
  const most = tableLimits.complaintsAlike;
  const run = (count: number, at: At = {}): Told[] =>
    Array.from({ length: count }, (_, i) => [`fault ${i}`, { ...at, line: i + 2 }]);
  expect(texts(...run(most))).toHaveLength(most);
  expect(texts(...run(most + 1)).slice(most)).toEqual(['1 more of this kind follows in this table']);
  const cut = listWith(
    ...run(most + 30),
    ...run(most, { column: 'other' }),
    ...run(most, { column: null }),
    ...run(most, { code: 'VAL02' }),
    ...run(most, { file: 'b.csv' }),
  );
  const all = cut.sorted();
  expect(all).toHaveLength(5 * most + 1);
  expect(cut.told()).toBe(5 * most + 30);
  const [more, ...others] = all.filter(({ text }) => !text.startsWith('fault'));
  expect(others).toEqual([]);
  expect(more).toEqual({
    code: 'VAL01',
    severity: 'error',
    file: 'a.csv',
    line: most + 1,
    column: 'value',
    text: '30 more of this kind follow in this table',
    excerpt: null,
    help: 'Correct those shown above; they often share one cause.',
  });
  // It stands after the last of its kind.
  expect(all[all.indexOf(more!) - 1]).toMatchObject({
    text: `fault ${most - 1}`,
    code: 'VAL01',
    column: 'value',
  });
});

it('knows the files with an error, a warning is none', () => {
  const list = listWith(['wrong', { file: 'a.csv' }], ['doubtful', { file: 'b.csv', severity: 'warning' }]);
  expect(['a.csv', 'b.csv'].map((file) => list.hasError(file))).toEqual([true, false]);
  expect(list.hasError()).toBe(true);
  expect(list.sorted().map(({ severity }) => severity)).toEqual(['error', 'warning']);
  expect(listWith(['doubtful', { severity: 'warning' }]).hasError()).toBe(false);
  list.passOver('c.csv');
  expect([list.hasError('c.csv'), list.told(), list.sorted().length]).toEqual([true, 3, 2]);
  expect(complaintList(['d.csv']).hasError('d.csv')).toBe(true);
});

it('keeps what was read otherwise apart', () => {
  const list = complaintList();
  const note = { file: 'a.csv', line: 2, column: 'value', found: 'TRUE', taken: 'yes' };
  list.note(note);
  expect([list.notes(), list.told(), list.hasError(), list.sorted()]).toEqual([[note], 0, false, []]);
});
