/** Real weeks against the date library's own arithmetic, through every week of years with clock changes. */
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { zonedWeek } from '../../../src/core/calendar/zoned-week.js';
import { DAYS, type Day, type Shift } from '../../../src/core/model/cell.js';
import { weekCalendar } from '../../../src/core/shifts/week-calendar.js';

const shift = (name: string, startMin: number, endMin: number, more: Partial<Shift> = {}): Shift => ({
  pattern: 'all week',
  shift: name,
  days: [...DAYS],
  startMin,
  endMin,
  breaks: [],
  attended: true,
  operators: 1,
  labourPerH: 30,
  ...more,
});
const early = shift('early', 360, 840, { breaks: [{ startMin: 540, endMin: 560 }] });
const night = shift('night', 1320, 1800, { breaks: [{ startMin: 1530, endMin: 1650 }] });

const ZONES = [
  'Europe/Berlin',
  'America/New_York',
  'Australia/Lord_Howe',
  'America/St_Johns',
  'Asia/Kolkata',
  'UTC',
];

/** Hours between two clock times, by the library's own difference. */
function between(
  zone: string,
  monday: Temporal.PlainDate,
  day: Day,
  startMin: number,
  endMin: number,
): number {
  const midnight = monday.add({ days: DAYS.indexOf(day) }).toPlainDateTime('00:00');
  const [from, to] = [startMin, endMin].map((minutes) => midnight.add({ minutes }).toZonedDateTime(zone));
  return from!.until(to!, { largestUnit: 'hour' }).total({ unit: 'hour', relativeTo: from! });
}

describe.each(ZONES)('%s, each week of 2026', (zone) => {
  test('hours of every shift, of its breaks and of the week are those that pass', () => {
    let changed = 0;
    for (let week = 0; week < 53; week++) {
      const monday = Temporal.PlainDate.from('2025-12-29').add({ weeks: week });
      const real = zonedWeek([early, night], monday.add({ days: week % 7 }).toString(), zone);
      expect(real.monday).toBe(monday.toString());
      const next = monday.add({ weeks: 1 });
      expect(real.hours).toBe(
        monday.toZonedDateTime(zone).until(next.toZonedDateTime(zone), { largestUnit: 'hour' }).hours +
          monday.toZonedDateTime(zone).until(next.toZonedDateTime(zone), { largestUnit: 'hour' }).minutes /
            60,
      );
      const rows = real.shifts.flatMap((s) => s.days.map((day) => ({ ...s, day })));
      expect(rows).toHaveLength(14);
      for (const row of rows) {
        const typed = row.shift === 'early' ? early : night;
        expect((row.endMin - row.startMin) / 60).toBeCloseTo(
          between(zone, monday, row.day, typed.startMin, typed.endMin),
          9,
        );
        const [pause] = row.breaks;
        const [clock] = typed.breaks;
        expect((pause!.endMin - pause!.startMin) / 60).toBeCloseTo(
          between(zone, monday, row.day, clock!.startMin, clock!.endMin),
          9,
        );
      }
      changed += real.changes.length;
      const total = rows.reduce((sum, r) => sum + (r.endMin - r.startMin) / 60, 0);
      expect(weekCalendar(real.shifts, 'all week').hoursPerWeek).toBeCloseTo(total, 9);
    }
    // Clocks change twice a year, each time on a night shift of this pattern; or never.
    expect(changed).toBe(zone === 'Asia/Kolkata' || zone === 'UTC' ? 0 : 2);
  });
});

test('the long and the short night of Berlin, and of New York', () => {
  const night8 = shift('night', 1320, 1800);
  expect(zonedWeek([night8], '2026-10-19', 'Europe/Berlin').changes).toEqual([
    { pattern: 'all week', shift: 'night', day: 'Sat', clockH: 8, passedH: 9 },
  ]);
  expect(zonedWeek([night8], '2026-03-29', 'Europe/Berlin').changes).toEqual([
    { pattern: 'all week', shift: 'night', day: 'Sat', clockH: 8, passedH: 7 },
  ]);
  expect(zonedWeek([night8], '2026-03-02', 'America/New_York').changes).toMatchObject([
    { day: 'Sat', passedH: 7 },
  ]);
});

test('a week without a change is the table as it stands', () => {
  const real = zonedWeek([early, night], '2026-06-10', 'Europe/Berlin');
  expect(real).toMatchObject({ monday: '2026-06-08', hours: 168, changes: [] });
  expect(real.shifts).toEqual([early, night]);
});

test('shifts that follow the changed one without a gap stay so; after a gap they start by the clock', () => {
  const late = shift('late', 840, 1320, { days: ['Sun'] });
  const morning = shift('early', 360, 840, { days: ['Sun'] });
  const evening = shift('evening', 1380, 1439, { days: ['Sun'] });
  const night8 = shift('night', 1320, 1800, { days: ['Sat'] });
  const spans = (date: string) =>
    zonedWeek([night8, morning, late, evening], date, 'Europe/Berlin').shifts.map((s) => [
      s.shift,
      s.startMin,
      s.endMin,
    ]);
  expect(spans('2026-10-19')).toEqual([
    ['night', 1320, 1860],
    ['early', 420, 900],
    ['late', 900, 1380],
    ['evening', 1380, 1439],
  ]);
  expect(spans('2026-03-23')).toEqual([
    ['night', 1320, 1740],
    ['early', 300, 780],
    ['late', 780, 1260],
    ['evening', 1380, 1439],
  ]);
});

test('day and night without a pause: the hour too many is told, the hour too few closes the week', () => {
  const all = [early, shift('late', 840, 1320), shift('night', 1320, 1800)];
  const long = zonedWeek(all, '2026-10-19', 'Europe/Berlin');
  expect(long).toMatchObject({ hours: 169, leftOut: [{ pattern: 'all week', hours: 1 }] });
  expect(weekCalendar(long.shifts, 'all week').hoursPerWeek).toBe(168);
  const short = zonedWeek(all, '2026-03-23', 'Europe/Berlin');
  expect(short).toMatchObject({ hours: 167, leftOut: [] });
  expect(weekCalendar(short.shifts, 'all week').hoursPerWeek).toBe(167);
});

test('dates and zones that are not there are refused', () => {
  expect(() => zonedWeek([early], '19.10.2026', 'UTC')).toThrow('expected a date such as 2026-10-19');
  expect(() => zonedWeek([early], '2026-02-30', 'UTC')).toThrow('no day of the calendar');
  expect(() => zonedWeek([early], '2026-10-19', 'Europe/Berlim')).toThrow('expected the name of a time zone');
});
