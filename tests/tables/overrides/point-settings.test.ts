/** The changes of one point of a sweep. */
import { expect, test } from 'vitest';
import { pointSettings, sweptCosts } from '../../../src/tables/overrides/point-settings.js';

test('a point sets its inputs after the changes that always hold', () => {
  expect(pointSettings(['robot.hands'], ['2'], ['robot.index_s=3'])).toEqual([
    'robot.index_s=3',
    'robot.hands=2',
  ]);
});

test('a swept cost value loses its low and high, but not one that is swept or set itself', () => {
  const value = 'costs.box_price.value';
  expect(pointSettings([value], ['900'], [])).toEqual([
    `${value}=900`,
    'costs.box_price.low=',
    'costs.box_price.high=',
  ]);
  expect(
    pointSettings([value, 'costs.box_price.high'], ['900', '950'], [' costs.box_price.low = 800']),
  ).toEqual([' costs.box_price.low = 800', `${value}=900`, 'costs.box_price.high=950']);
  expect(sweptCosts(['costs.box_price.low', value, 'parts.costs.value'])).toEqual(['box_price']);
});
