/** Real weeks against the date library's own arithmetic, through every week of years with clock changes. */
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { clockText } from '../../../src/core/calendar/clock-text.js';
import { weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { zonedWeek } from '../../../src/core/calendar/zoned-week.js';
import { DAYS, type Day, type Shift } from '../../../src/core/model/cell.js';
import { sample } from '../../support/size.js';

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

describe.each(sample(ZONES))('%s, each week of 2026', (zone) => {
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

const all = [early, shift('late', 840, 1320), shift('night', 1320, 1800)];

describe('day and night without a pause', () => {
  test.each(ZONES)('%s: every hour of every week of the year is there', (zone) => {
    for (let week = 0; week < 53; week++) {
      const monday = Temporal.PlainDate.from('2025-12-29').add({ weeks: week });
      const next = monday.add({ weeks: 1 });
      const passed = monday
        .toZonedDateTime(zone)
        .until(next.toZonedDateTime(zone), { largestUnit: 'minute' });
      const calendar = weekCalendar(zonedWeek(all, monday.toString(), zone).shifts, 'all week');
      expect(calendar.weekS).toBe(60 * passed.minutes);
      expect(calendar.hoursPerWeek).toBeCloseTo(passed.minutes / 60, 9);
      expect(calendar.segments.every((s) => s.open)).toBe(true);
    }
  });

  test('the long and the short week of Berlin', () => {
    const long = weekCalendar(zonedWeek(all, '2026-10-19', 'Europe/Berlin').shifts, 'all week');
    expect(long).toMatchObject({ hoursPerWeek: 169, clockChange: { atS: (6 * 24 + 3) * 3600, byS: 3600 } });
    const short = weekCalendar(zonedWeek(all, '2026-03-23', 'Europe/Berlin').shifts, 'all week');
    expect(short).toMatchObject({ hoursPerWeek: 167, clockChange: { atS: (6 * 24 + 2) * 3600, byS: -3600 } });
  });

  test.each(['Europe/Berlin', 'America/New_York', 'Australia/Lord_Howe'])(
    '%s: the clock is told as the library tells it',
    (zone) => {
      for (const date of [
        '2026-03-08',
        '2026-03-29',
        '2026-04-05',
        '2026-10-04',
        '2026-10-25',
        '2026-11-01',
      ]) {
        const real = zonedWeek(all, date, zone);
        const calendar = weekCalendar(real.shifts, 'all week');
        const start = Temporal.PlainDate.from(real.monday).toZonedDateTime(zone);
        for (let minutes = 0; minutes < calendar.weekS / 60; minutes += 15) {
          const shown = start.add({ minutes });
          const clock = shown.toPlainTime().toString({ smallestUnit: 'minute' });
          expect(clockText(minutes * 60, calendar)).toBe(`${DAYS[shown.dayOfWeek - 1]} ${clock}`);
        }
      }
    },
  );

  test('a pause too short for the hour gives way, and the week is longer by the rest', () => {
    const sunday = shift('night', 1320, 1770, { days: ['Sun'] });
    const six = shift('night', 1320, 1800, { days: DAYS.slice(0, 6) });
    const calendar = weekCalendar(
      zonedWeek([early, shift('late', 840, 1320), six, sunday], '2026-10-19', 'Europe/Berlin').shifts,
      'all week',
    );
    expect(calendar.hoursPerWeek).toBe(168.5);
    expect(calendar.weekS).toBe(168.5 * 3600);
  });

  test('a pattern with a pause keeps the week of the clock', () => {
    const calendar = weekCalendar(
      zonedWeek([early, night], '2026-10-19', 'Europe/Berlin').shifts,
      'all week',
    );
    expect(calendar).toMatchObject({ weekS: 168 * 3600, clockChange: null, hoursPerWeek: 113 });
  });
});

test('dates and zones that are not there are refused', () => {
  expect(() => zonedWeek([early], '19.10.2026', 'UTC')).toThrow('expected a date such as 2026-10-19');
  expect(() => zonedWeek([early], '2026-02-30', 'UTC')).toThrow('no day of the calendar');
  expect(() => zonedWeek([early], '2026-10-19', 'Europe/Berlim')).toThrow('expected the name of a time zone');
});
