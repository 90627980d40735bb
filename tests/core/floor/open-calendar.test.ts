/** A week of open spans as segments, by hand. */
import { describe, expect, it } from 'vitest';
import { alwaysOpenWeek, WEEK_S, weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { type OpenSpan, openCalendar } from '../../../src/core/floor/open-calendar.js';
import { openSpans } from '../../../src/core/floor/open-spans.js';
import type { Shift } from '../../../src/core/model/cell.js';

const span = (startS: number, endS: number, more: Partial<OpenSpan> = {}): OpenSpan => ({
  ...{ startS, endS, attended: true },
  ...more,
});

describe('segments', () => {
  it('are the spans and the gaps between them', () => {
    const week = openCalendar([
      span(10, 30, { weekS: 100, operators: 2 }),
      span(30, 40, { operators: 0 }),
      span(60, 90, { attended: false }),
    ]);
    expect([week.weekS, week.openS]).toEqual([100, 60]);
    expect(
      week.segments.map(({ startS, endS, open, attended, operator }) => [
        startS,
        endS,
        open,
        attended,
        operator,
      ]),
    ).toEqual([
      [0, 10, false, false, false],
      [10, 30, true, true, true],
      [30, 40, true, true, false],
      [40, 60, false, false, false],
      [60, 90, true, false, false],
      [90, 100, false, false, false],
    ]);
    expect([[...week.endsS], [...week.operators]]).toEqual([
      [10, 30, 40, 60, 90, 100],
      [0, 2, 0, 0, 0, 0],
    ]);
    // People leave at 40; the cell then runs alone for the 30 s from 60 on.
    expect(week.handovers.map((h) => [h.alone, h.leavesS, h.aloneS])).toEqual([
      [false, 10, 0],
      [false, 40, 30],
      [false, 40, 30],
      [false, 60, 0],
      [true, 90, 0],
      [false, 100, 0],
    ]);
  });

  it('one operator is there in attended spans, nobody in others, unless said', () => {
    const week = openCalendar([
      span(0, 10),
      span(10, 20, { attended: false }),
      span(20, 30, { attended: false, operators: 3 }),
    ]);
    expect([...week.operators]).toEqual([1, 0, 3, 0]);
    expect(week.segments.map((s) => s.operator)).toEqual([true, false, true, false]);
  });

  it('a week is seven days unless said, and no shorter than its last span', () => {
    expect(openCalendar([span(0, 10)]).weekS).toBe(WEEK_S);
    expect(openCalendar([span(0, 10, { weekS: 5 })]).weekS).toBe(10);
    expect(openCalendar([span(0, 10, { weekS: 10 })]).segments).toHaveLength(1);
  });

  it('the clock goes by the reduced speed and by the people who are there', () => {
    const { clock } = openCalendar([span(0, 10, { weekS: 100 }), span(10, 50, { attended: false })], 50);
    expect([clock.travelEnd(8, 5), clock.travelEnd(20, 5), clock.operatorEnd(8, 5)]).toEqual([14, 25, 103]);
    expect(clock.segmentAt(20).shift).toBe(1);
    expect(openCalendar([span(0, 10)]).clock.travelEnd(1, 5)).toBe(6);
  });
});

describe('shifts', () => {
  it('end where the next span has another name, in open seconds', () => {
    const week = openCalendar([
      span(10, 30, { shift: 'Mon early', shiftName: 'early', weekS: 200 }),
      span(40, 50, { shift: 'Mon early', shiftName: 'early' }),
      span(50, 70, { shift: 'Mon late', shiftName: 'late' }),
      span(100, 120),
      span(130, 135),
    ]);
    expect([...week.shiftEndsS]).toEqual([30, 50, 70, 75]);
    expect(week.shiftLabels).toEqual(['Mon early', 'Mon late', '', '']);
    expect(week.shiftNames).toEqual(['early', 'late', '', '']);
  });
});

describe('spans that cannot be', () => {
  it.each([
    [[span(10, 30), span(20, 40)], 'open span 2 must start'],
    [[span(10, 10)], 'open span 1 must start'],
    [[span(30, 20)], 'open span 1'],
    [[span(10, Number.POSITIVE_INFINITY)], 'open span 1'],
    [[span(Number.NaN, 20)], 'open span 1'],
    [[span(-1, 20)], 'open span 1'],
    [[], 'at least one open span'],
  ])('%j are refused', (spans, why) => {
    expect(() => openCalendar(spans)).toThrow(why);
  });
});

describe('the spans of a pattern', () => {
  const shift = (more: Partial<Shift>): Shift => ({
    ...{ pattern: 'p', shift: 'early', days: ['Mon'], startMin: 60, endMin: 180, breaks: [], attended: true },
    ...{ operators: 2, labourPerH: 0 },
    ...more,
  });
  const spansOf = (shifts: readonly Shift[]) => openSpans(weekCalendar(shifts, 'p'), shifts);

  it('have the people of their shift, none in breaks, and its name by day', () => {
    const shifts = [
      shift({ pattern: 'other', operators: 9 }),
      shift({ breaks: [{ startMin: 120, endMin: 130 }] }),
      shift({ shift: 'night', startMin: 180, endMin: 240, attended: false }),
    ];
    const early = { shift: 'Mon early', shiftName: 'early', attended: true, weekS: WEEK_S };
    expect(spansOf(shifts)).toEqual([
      { ...early, startS: 3600, endS: 7200, operators: 2 },
      { ...early, startS: 7200, endS: 7800, operators: 0 },
      { ...early, startS: 7800, endS: 10_800, operators: 2 },
      {
        ...early,
        startS: 10_800,
        endS: 14_400,
        attended: false,
        operators: 0,
        shift: 'Mon night',
        shiftName: 'night',
      },
    ]);
  });

  it('where there are no shifts, all of the week is one', () => {
    const [all, ...others] = openSpans(alwaysOpenWeek(), []);
    expect(others).toEqual([]);
    expect(all).toMatchObject({ startS: 0, endS: WEEK_S, shift: 'all day', weekS: WEEK_S });
    expect('shiftName' in all).toBe(false);
  });

  it('an attended shift has somebody there, also where it counts none', () => {
    expect(spansOf([shift({ operators: 0 })]).map((s) => s.operators)).toEqual([1]);
  });
});
