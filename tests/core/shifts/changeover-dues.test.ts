/** Due times of a year's changeovers: how many, how far apart, and when the year repeats. */
import { describe, expect, it } from 'vitest';
import { WEEK_S, weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { WorkClock } from '../../../src/core/floor/work-clock.js';
import { changeoverDues } from '../../../src/core/shifts/changeover-dues.js';
import type { ChangeoverWork } from '../../../src/core/shifts/changeover-work.js';
import { shift } from './small-cells.js';

const BREAKS = [{ startMin: 540, endMin: 570 }];
const clock = new WorkClock(weekCalendar([shift({ breaks: BREAKS })], 'p'), {
  attendedSpeedPct: 100,
  operator: 'attended',
});
const work = (...perYear: number[]): ChangeoverWork[] =>
  perYear.map((n, i) => ({
    station: `m${i}`,
    perYear: n,
    workMin: 30,
    standMin: 30,
    people: 1,
    way: 'left out',
    wayMin: 0,
  }));

describe('changeovers fall due', () => {
  it.each([
    [[52], 13, [13]],
    [[48, 36, 24, 10], 26, [24, 18, 12, 5]],
    [[40, 24], 13, [10, 6]],
    [[4], 13, [1]],
    [[7, 52], 52, [7, 52]],
    // Not whole: the year as it is, the count rounded, a rare one once.
    [[10.5, 0.2], 52, [11, 1]],
  ])('%j a year: %d weeks, %j in them', (perYear, weeks, counts) => {
    const dues = changeoverDues(work(...perYear), clock, 0);
    expect(dues.weeks).toBe(weeks);
    expect(dues.dueS.map((d) => d.length)).toEqual(counts);
  });

  it('at even distances of attended time, in whole minutes, the machines shifted against each other', () => {
    const { dueS } = changeoverDues(work(104, 104), clock, 3 * WEEK_S);
    // 37.5 attended hours a week, two changeovers each: every 18.75 h, from a quarter and three quarters of that on.
    for (const [row, phase] of [0.25, 0.75].entries())
      dueS[row]!.forEach((t, k) => {
        const hours = clock.operatorBetween(3 * WEEK_S, t) / 3600;
        expect(hours).toBeGreaterThan((k + phase) * 18.75 - 1 / 60);
        expect(hours).toBeLessThanOrEqual((k + phase) * 18.75 + 1e-9);
        expect(t % 60).toBe(0);
        expect(clock.segmentAt(t).operator).toBe(true);
      });
  });
});
