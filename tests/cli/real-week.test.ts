// `shifts` in a real week: the long night has an hour more, and wrong dates and zones are a wrong use.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { smallTables } from '../render/report-page/small-report.js';
import { freshFolder, run } from './run-in.js';

const shop = join(freshFolder(), 'shop');
mkdirSync(shop);
const NIGHT = `pattern,shift,days,start,end,breaks,attended,operators,labour_per_h
day and evening,early,Mon-Fri,06:00,14:00,,yes,1,35
day and evening,evening,Sat,22:00,06:00,,no,0,0
`;
for (const [name, text] of Object.entries({ ...smallTables, 'shifts.csv': NIGHT }))
  writeFileSync(join(shop, name), text.replace(/,(90|70),/g, ',900,'));
const week = (...args: string[]) => run(['shifts', shop, ...args]);

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
