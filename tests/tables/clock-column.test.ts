// Clock times and breaks: every way of writing one that is read, with the minutes that it means, and the like that is not.
import { describe, expect, it } from 'vitest';
import { breaksColumn, clockColumn, minutesOfClock } from '../../src/tables/clock-column.js';

const style = { decimalComma: false };
const clock = (text: string) => clockColumn('when').read(text, style);
const breaks = (text: string) => breaksColumn('when').read(text, style);

describe('a time of day', () => {
  it('is hours and minutes', () => {
    for (const [text, minutes] of [
      ['00:00', 0],
      ['6:30', 390],
      ['06:30', 390],
      ['09:59:00', 599],
      ['19:05', 1145],
      ['23:59', 1439],
    ] as const) {
      expect(minutesOfClock(text), text).toBe(minutes);
      expect(clock(text), text).toEqual({ ok: true, value: minutes });
    }
    for (const text of ['24:00', '6:60', '6:5', '06:30:01', '106:30', '06:300', '']) {
      expect(minutesOfClock(text), text).toBeNull();
    }
  });

  it('is read as it is written elsewhere, and says as what', () => {
    for (const [text, taken, minutes] of [
      ['6h30', '06:30', 390],
      ['14h', '14:00', 840],
      ['6 h 05', '06:05', 365],
      ['6:30 am', '06:30', 390],
      ['12:15 am', '00:15', 15],
      ['12 pm', '12:00', 720],
      ['1 PM', '13:00', 780],
      ['2 p.m.', '14:00', 840],
      ['11:59pm', '23:59', 1439],
      ['6.30 Uhr', '06:30', 390],
      ['18 uhr', '18:00', 1080],
    ] as const)
      expect(clock(text), text).toEqual({ ok: true, value: minutes, taken });
  });

  it('is refused where it may mean something else, or nothing', () => {
    for (const text of ['6.30', '6', '13 pm', '0 am', '0:30 pm', '25h', '6h60', 'noon', 'am', '6:30 xm']) {
      const reading = clock(text);
      expect(reading.ok, text).toBe(false);
      if (reading.ok) continue;
      expect(reading.fault).toEqual({
        code: 'VAL11',
        text: `found \`${text}\`, expected a time of day from 00:00 to 23:59, such as \`06:30\``,
        help: null,
      });
    }
  });

  it('at midnight is 00:00', () => {
    const help = 'Write midnight as `00:00`; an end at or before the start is on the next day.';
    for (const text of ['24:00', '24:00:00'])
      expect(clock(text)).toMatchObject({ ok: false, fault: { code: 'VAL11', help } });
    for (const text of ['124:00', '24:001', '24:00:00:00'])
      expect(clock(text)).toMatchObject({ ok: false, fault: { help: null } });
  });
});

describe('breaks', () => {
  it('are spans of clock times, one or several', () => {
    expect(breaks('09:00-09:20')).toEqual({ ok: true, value: [{ startMin: 540, endMin: 560 }] });
    expect(breaks('23:50 - 00:10; 2:00-2:30')).toEqual({
      ok: true,
      value: [
        { startMin: 1430, endMin: 10 },
        { startMin: 120, endMin: 150 },
      ],
    });
  });

  it('are refused with the one that is wrong', () => {
    for (const [text, found, span] of [
      ['09:00', '09:00', [0, 5]],
      ['09:00-', '09:00-', [0, 6]],
      ['-09:20', '-09:20', [0, 6]],
      ['09:00-09:00', '09:00-09:00', [0, 11]],
      ['09:00-09:20-09:40', '09:00-09:20-09:40', [0, 17]],
      ['09:00-09:20; 10-11 ;12:00-12:30', '10-11', [12, 19]],
      ['09:00-09:20;11:30-12:00;', '', [24, 24]],
    ] as const)
      expect(breaks(text), text).toEqual({
        ok: false,
        fault: {
          code: 'VAL13',
          text: `found \`${found}\`, expected breaks such as \`09:00-09:20;11:30-12:00\``,
          help: null,
          span,
        },
      });
  });
});
