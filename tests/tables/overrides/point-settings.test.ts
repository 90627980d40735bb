/** The changes of one point of a sweep, and its figures. */
import { expect, test } from 'vitest';
import { plainLayer } from '../../../src/tables/overrides/layered-tables.js';
import { pointFigures } from '../../../src/tables/overrides/point-figures.js';
import { pointSettings, sweptCosts } from '../../../src/tables/overrides/point-settings.js';
import { tableMemory } from '../../../src/tables/table-memory.js';

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

test('a point has the figures of the cell with its values, or what is wrong with them', async () => {
  // Unload 10, to the outfeed 2, to the infeed 2, back 2, load 10: between two cycles the robot needs 26 s.
  const layers = plainLayer({
    'stations.csv': 'station,kind\nrack,infeed\nmill,machine\ndone,outfeed\n',
    'routes.csv': 'part,step,stations,cycle_s,load_s,unload_s\np,1,rack\np,2,mill,100,10,10\np,3,done\n',
    'robot.csv': 'setting,value\nhands,1\ntravel_s,1\n',
  });
  const asked = {
    ...{ layers, settings: ['robot.travel_s=2'], paths: ['routes.p.2.cycle_s'] },
    ...{ figures: ['schedule.periodS'], nodes: null },
  };
  const memory = tableMemory();
  const at = (value: string, more: Partial<typeof asked> = {}) =>
    pointFigures({ ...asked, ...more }, { number: 1, values: [value] }, memory, () =>
      Promise.reject(new Error('no solver')),
    );
  for (const cycleS of [100, 200])
    expect(await at(String(cycleS))).toMatchObject({
      ...{ number: 1, values: [String(cycleS)], status: 'proven', complaints: [] },
      figures: [cycleS + 26],
    });
  expect(await at('fast')).toMatchObject({
    ...{ number: 1, values: ['fast'], status: null, figures: [], complaints: [{ code: 'VAL02' }] },
  });
  // Sound as tables; the cost case finds nothing left of a rate after a tax that takes all.
  const settings = ['costs.tax_pct.value=100', 'costs.discount_tax.value=after-tax'];
  expect(await at('100', { settings, figures: ['costcase.best'] })).toMatchObject({
    ...{ number: 1, values: ['100'], status: null, figures: [], complaints: [{ code: 'CASE006' }] },
  });
  await expect(at('100', { figures: ['mix.best'] })).rejects.toThrow('no solver');
});
