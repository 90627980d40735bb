// What a clock on the wall is ahead of UTC. Central Europe (IANA, rule EU): +1 h, +2 h in summer, which ends at 01:00 UTC on
// the last Sunday of October: 27 October 2024, 26 October 2025. The hour from 2 to 3 is then shown twice.
import { expect, test } from 'vitest';
import { LocalOffset } from '../../../src/tables/log/local-offset.js';

const s = (text: string) => Date.parse(`${text}Z`) / 1000;

test('in winter and in summer', () => {
  const clock = new LocalOffset('Europe/Berlin');
  expect(clock.at(s('2024-01-10T12:00:00'), 0)).toBe(60);
  expect(clock.at(s('2024-07-10T12:00:00'), 0)).toBe(120);
});

test('an hour shown twice is the first until that would run back, in the next year again', () => {
  const clock = new LocalOffset('Europe/Berlin');
  const half = s('2024-10-27T02:30:00');
  expect(clock.at(half, s('2024-10-27T00:30:00'))).toBe(120);
  expect(clock.at(half, s('2024-10-27T00:30:01'))).toBe(60);
  expect(clock.at(half + 60, 0)).toBe(60);
  expect(clock.at(s('2024-10-27T04:00:00'), 0)).toBe(60);
  expect(clock.at(s('2025-10-26T02:30:00'), s('2025-10-25T22:00:00'))).toBe(120);
});

test('a zone that is not known is refused at once', () => {
  expect(() => new LocalOffset('Nowhere/None')).toThrow(RangeError);
});
