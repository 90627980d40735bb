// `shifts` in a real week: the long night has an hour more, and wrong dates and zones are a wrong use.
import { expect, test } from 'vitest';
import { sharedShop } from '../support/shop-answers.js';
import { run } from './run-in.js';

const NIGHT = [
  '--set',
  'shifts.day and evening.evening.days=Sat',
  '--set',
  'shifts.day and evening.evening.start=22:00',
  '--set',
  'shifts.day and evening.evening.end=06:00',
];
const week = (...args: string[]) => run(['shifts', sharedShop, ...NIGHT, ...args]);

test('the night of the clock change is an hour longer, and the result says so', async () => {
  const hours = async (...args: string[]): Promise<number> => {
    const { out, err } = await week('--json', ...args);
    expect(err).toBe('');
    return JSON.parse(out).patterns.find((p: { pattern: string }) => p.pattern === 'day and evening')
      .hoursPerWeek;
  };
  const plain = await hours();
  expect(await hours('--week', '2026-10-22', '--zone', 'Europe/Berlin')).toBeCloseTo(plain + 1, 9);
  expect(await hours('--week', '2026-03-25', '--zone', 'Europe/Berlin')).toBeCloseTo(plain - 1, 9);
  expect(await hours('--week', '2026-07-01', '--zone', 'Europe/Berlin')).toBeCloseTo(plain, 9);
  const { out } = await week('--week', '2026-10-22', '--zone', 'Europe/Berlin', '--full');
  expect(out.replace(/\s+/g, ' ')).toContain(
    'The week from Monday 2026-10-19 in Europe/Berlin has 169 hours: day and evening, evening of Sat has 9 hours in place of 8.',
  );
});

test.each<[string[], string]>([
  [['--week', '2026-10-19'], '`--week` and `--zone` go together'],
  [['--week', 'soon', '--zone', 'UTC'], 'expected a date such as 2026-10-19'],
  [
    ['--week', '2026-10-19', '--zone', 'Europe/Nowhere'],
    'expected the name of a time zone, such as Europe/Berlin',
  ],
])('%j', async (args, text) => {
  const said = await week(...args);
  expect(said).toMatchObject({ exit: 2, out: '' });
  expect(said.err).toContain(text);
});
