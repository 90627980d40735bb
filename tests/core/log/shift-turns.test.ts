// The shifts of a pattern on the time line of a log, with midnight, week ends and the change of the clocks.
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { ShiftTurns } from '../../../src/core/log/shift-turns.js';
import type { Day, Shift } from '../../../src/core/model/cell.js';

const WEEKDAYS: readonly Day[] = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'];
const shift = (name: string, days: readonly Day[], startH: number, endH: number): Shift => ({
  pattern: 'p',
  shift: name,
  days,
  startMin: startH * 60,
  endMin: endH * 60,
  breaks: [],
  attended: name !== 'night',
  operators: 1,
  labourPerH: 0,
});
const SHIFTS = [shift('early', WEEKDAYS, 6, 14), shift('night', ['Mon', 'Tue', 'Wed', 'Thu', 'Sat'], 22, 30)];
const at = (text: string): number => Temporal.Instant.from(text).epochMilliseconds / 1000;

describe('the turn at a moment', () => {
  const turns = new ShiftTurns(SHIFTS, 'Europe/Berlin');
  test.each([
    ['2026-10-19T06:00:00+02:00', 'early', '2026-10-19'],
    ['2026-10-19T13:59:59.9+02:00', 'early', '2026-10-19'],
    ['2026-10-20T05:59:00+02:00', 'night', '2026-10-19'],
    // The night of the change has nine hours.
    ['2026-10-24T22:00:00+02:00', 'night', '2026-10-24'],
    ['2026-10-25T05:59:00+01:00', 'night', '2026-10-24'],
  ])('%s is in %s of %s', (moment, name, date) => {
    expect(turns.at(at(moment))).toMatchObject({ shift: name, date });
  });

  test.each(['2026-10-19T05:59:59+02:00', '2026-10-19T14:00:00+02:00', '2026-10-24T12:00:00+02:00'])(
    '%s is in none',
    (moment) => {
      expect(turns.at(at(moment))).toBeNull();
      expect(turns.at(at(moment))).toBeNull();
    },
  );

  test('does not depend on the order of the questions', () => {
    const moments = Array.from(
      { length: 400 },
      (_, k) => at('2026-10-20T00:00:00Z') + ((k * 7919) % 400) * 5400,
    );
    const inOrder = new ShiftTurns(SHIFTS, 'Europe/Berlin');
    const answers = new Map([...moments].sort((a, b) => a - b).map((m) => [m, inOrder.at(m)]));
    for (const m of moments) expect(turns.at(m)).toEqual(answers.get(m));
  });
});

test('turns between two moments, their lengths by the hours that pass', () => {
  const turns = new ShiftTurns(SHIFTS, 'Europe/Berlin').between(
    at('2026-10-23T12:00:00Z'),
    at('2026-10-26T04:00:00Z'),
  );
  expect(turns.map((t) => [t.shift, t.date, (t.endS - t.startS) / 3600])).toEqual([
    ['night', '2026-10-24', 9],
  ]);
});

test('a zone may be an offset, and must be known', () => {
  expect(new ShiftTurns(SHIFTS, '+02:00').at(at('2026-10-19T04:00:00Z'))?.shift).toBe('early');
  expect(() => new ShiftTurns(SHIFTS, 'Mars/Base')).toThrow(RangeError);
});
