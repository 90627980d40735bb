// Days in the spellings of six languages, from their calendars; what begins two days in different languages is neither.
import { expect, test } from 'vitest';
import { dayNamed } from '../../src/tables/day-named.js';

test.each([
  ['Mon', 'Mon'],
  [' Sun ', 'Sun'],
  [' mo ', 'Mon'],
  ['mo.', 'Mon'],
  ['TUESDAY', 'Tue'],
  ['miercoles', 'Wed'],
  ['MIÉRCOLES', 'Wed'],
  ['mercoledì', 'Wed'],
  ['jeu.', 'Thu'],
  ['Vrijdag', 'Fri'],
  ['Sá', 'Sat'],
  ['zo', 'Sun'],
])('%s is %s', (text, day) => {
  expect(dayNamed(text)).toBe(day);
});

test.each(['', 'w', 'f.', 'ma', 'di', 'do', 'Mo.n', 'mo..', 'Monday 1', 'nday', '1'])(
  '%j is no one day',
  (text) => {
    expect(dayNamed(text)).toBeNull();
  },
);
