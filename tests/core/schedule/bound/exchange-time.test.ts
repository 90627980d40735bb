/** The least time between a pick and the next place at a station, told by hand. */
import { expect, test } from 'vitest';
import { exchangeTimes } from '../../../../src/core/schedule/bound/exchange-time.js';
import { legsOf } from '../../../../src/core/schedule/bound/legs.js';
import { readCell } from '../../../../src/tables/read-cell.js';

function exchangeOf(hands: number, indexS: number): number {
  const cell = readCell({
    'stations.csv': 'station,kind\nin,infeed\nm,machine\nout,outfeed\n',
    'routes.csv': 'part,step,stations,cycle_s,load_s,unload_s\na,1,in,,,4\na,2,m,60,5,6\na,3,out,,3,\n',
    'robot.csv': `setting,value\nhands,${hands}\nindex_s,${indexS}\n`,
    'travel.csv': 'from,to,empty_s,loaded_s\nin,m,2,2.5\nm,in,2,2.5\nm,out,1,1.5\nout,m,1,1.5\nin,out,3,3\n',
  });
  const legs = legsOf(cell);
  return exchangeTimes(cell, legs)(legs.find((leg) => leg.from === 'm')!);
}

test('with one hand: away, set down, over to the next part, pick it and back', () => {
  expect(exchangeOf(1, 9)).toBeCloseTo(1.5 + 3 + 3 + 4 + 2.5, 9);
});

test('with two hands the turn, or away and back where that is quicker', () => {
  expect(exchangeOf(2, 1.5)).toBeCloseTo(1.5, 9);
  expect(exchangeOf(2, 9)).toBeCloseTo(1 + 1, 9);
});
