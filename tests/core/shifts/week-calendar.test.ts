/** The week of a pattern: spans, breaks, hours, labour, and what its clock answers. */
import { describe, expect, it } from 'vitest';
import { clockText } from '../../../src/core/calendar/clock-text.js';
import {
  alwaysOpenWeek,
  patternNames,
  WEEK_S,
  weekCalendar,
} from '../../../src/core/calendar/week-calendar.js';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { openSpans } from '../../../src/core/floor/open-spans.js';
import { WorkClock } from '../../../src/core/floor/work-clock.js';
import { labourCostPerWeek } from '../../../src/core/shifts/labour-cost.js';
import { shift } from './small-cells.js';

const H = 3600;
const DAY = 24 * H;

describe('a week of shifts', () => {
  it('day and night shifts: hours attended and not', () => {
    const week = weekCalendar(
      [
        shift({ breaks: [{ startMin: 540, endMin: 560 }] }),
        shift({ shift: 'night', startMin: 840, endMin: 1800, attended: false }),
        shift({ pattern: 'other', days: ['Sun'] }),
      ],
      'p',
    );
    expect(week.hoursPerWeek).toBe(5 * 24);
    expect(week.attendedH).toBe(40);
    expect(week.unattendedH).toBe(80);
    expect(week.shifts).toHaveLength(10);
    expect(week.segments[0]).toMatchObject({ startS: 0, endS: 6 * H, open: false });
    expect(week.segments.find((s) => s.startS === 9 * H)).toMatchObject({
      endS: 9 * H + 1200,
      attended: true,
      operator: false,
    });
    expect(week.segments.at(-1)!.endS).toBe(WEEK_S);
  });

  it('a shift over the end of the week goes on on Monday', () => {
    const week = weekCalendar([shift({ days: ['Sun'], startMin: 1320, endMin: 1800 })], 'p');
    expect(week.hoursPerWeek).toBe(8);
    expect(week.segments[0]).toMatchObject({ startS: 0, endS: 6 * H, open: true });
    const clock = new WorkClock(week, { attendedSpeedPct: 100, operator: 'attended' });
    expect(clock.longestSpanS).toBe(8 * H);
    expect(clock.spanEnd(6 * DAY + 23 * H)).toBe(7 * DAY + 6 * H);
  });

  it('shifts that overlap count once in hours and twice in labour', () => {
    const rows = [shift({}), shift({ shift: 'late', startMin: 780, endMin: 1260 })];
    const week = weekCalendar(rows, 'p');
    expect(week.hoursPerWeek).toBe(5 * 15);
    expect(labourCostPerWeek(rows)).toBe(2 * 5 * 8 * 30);
  });

  it('a break in which the cell stops is no open time, is paid as before, and is a gap in one shift', () => {
    const rows = [shift({ breaks: [{ startMin: 540, endMin: 555 }], breaksStop: true })];
    const week = weekCalendar(rows, 'p');
    expect(week.hoursPerWeek).toBe(5 * 7.75);
    expect(week.attendedH).toBe(5 * 7.75);
    expect(week.segments.find((s) => s.startS === 9 * H)).toMatchObject({ endS: 9 * H + 900, open: false });
    expect(labourCostPerWeek(rows)).toBe(5 * 8 * 30);
    expect(openCalendar(openSpans(week, rows)).shiftLabels).toHaveLength(5);
    // Somebody else who goes on working keeps it open.
    const two = [...rows, shift({ shift: 'second' })];
    expect(weekCalendar(two, 'p').hoursPerWeek).toBe(40);
  });

  it('a break with a second operator there is no time without one', () => {
    const rows = [shift({ breaks: [{ startMin: 540, endMin: 570 }] }), shift({ shift: 'second' })];
    expect(weekCalendar(rows, 'p').segments.filter((s) => s.open && !s.operator)).toHaveLength(0);
  });

  it('no shifts of that name leave all of it closed', () => {
    expect(weekCalendar([], 'p')).toMatchObject({ hoursPerWeek: 0, shifts: [] });
    expect(patternNames([shift({ pattern: 'b' }), shift({ pattern: 'a' }), shift({ pattern: 'b' })])).toEqual(
      ['b', 'a'],
    );
  });
});

describe('labour', () => {
  it('pays breaks of 20 minutes, not longer ones (29 CFR 785.18, 785.19)', () => {
    const breaks = [
      { startMin: 540, endMin: 560 },
      { startMin: 690, endMin: 720 },
    ];
    expect(labourCostPerWeek([shift({ breaks, operators: 2, labourPerH: 40 })])).toBe(5 * 7.5 * 2 * 40);
  });

  it('unattended shifts cost none', () => {
    expect(labourCostPerWeek([shift({ attended: false })])).toBe(0);
  });
});

describe('the clock of a week', () => {
  const week = weekCalendar(
    [
      shift({ breaks: [{ startMin: 480, endMin: 510 }] }),
      shift({ shift: 'late', startMin: 840, endMin: 1020, attended: false }),
    ],
    'p',
  );
  const clock = new WorkClock(week, { attendedSpeedPct: 50, operator: 'attended' });

  it('stretches travel in attended hours and stops it when closed', () => {
    expect(clock.travelEnd(6 * H, 100)).toBe(6 * H + 200);
    expect(clock.travelEnd(15 * H, 100)).toBe(15 * H + 100);
    expect(clock.travelEnd(14 * H - 100, 100)).toBe(14 * H + 50);
    expect(clock.travelEnd(17 * H - 40, 100)).toBe(DAY + 6 * H + 120);
  });

  it('lets the operator work around breaks and the unattended shift', () => {
    expect(clock.operatorEnd(7.9 * H, 600)).toBeCloseTo(8.5 * H + 240, 6);
    expect(clock.operatorEnd(16 * H, 60)).toBe(DAY + 6 * H + 60);
    const ignoring = new WorkClock(week, { attendedSpeedPct: 50, operator: 'no breaks' });
    expect(ignoring.operatorEnd(7.9 * H, 600)).toBeCloseTo(7.9 * H + 600, 6);
    const always = new WorkClock(week, { attendedSpeedPct: 50, operator: 'always' });
    expect(always.operatorEnd(16 * H, 60)).toBe(16 * H + 60);
  });

  it('begins no act that closing would cut', () => {
    expect(clock.fitStart(17 * H - 10, 10)).toBe(17 * H - 10);
    expect(clock.fitStart(17 * H - 10, 11)).toBe(DAY + 6 * H);
    expect(clock.fitStart(4 * DAY + 17 * H, 0)).toBe(WEEK_S + 6 * H);
    expect(clock.fitStart(0, 12 * H)).toBe(Number.POSITIVE_INFINITY);
  });

  it('adds up open time', () => {
    expect(clock.openBetween(0, WEEK_S)).toBe(55 * H);
    expect(clock.openBetween(16 * H, DAY + 7 * H)).toBe(2 * H);
    expect(clock.openBetween(16 * H, WEEK_S + 16 * H)).toBe(55 * H);
  });

  it('answers infinity where the week never opens or nobody comes', () => {
    const closed = new WorkClock(weekCalendar([], 'p'), { attendedSpeedPct: 100, operator: 'attended' });
    expect(closed.fitStart(5, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(closed.travelEnd(5, 1)).toBe(Number.POSITIVE_INFINITY);
    const lone = new WorkClock(weekCalendar([shift({ attended: false })], 'p'), {
      attendedSpeedPct: 100,
      operator: 'attended',
    });
    expect(lone.operatorEnd(5, 0)).toBe(Number.POSITIVE_INFINITY);
  });

  it('a week that never closes fits everything', () => {
    const always = new WorkClock(alwaysOpenWeek(), { attendedSpeedPct: 100, operator: 'always' });
    expect(always.fitStart(123, 1e9)).toBe(123);
    expect(always.spanEnd(5)).toBe(Number.POSITIVE_INFINITY);
  });
});

it('moments read as people say them', () => {
  expect(clockText(DAY + 3 * H + 40 * 60)).toBe('Tue 03:40');
  expect(clockText(WEEK_S + 59)).toBe('Mon 00:00');
  expect(clockText(-1)).toBe('Sun 23:59');
});
