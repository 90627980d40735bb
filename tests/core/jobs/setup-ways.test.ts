import { expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import { setupWays } from '../../../src/core/jobs/setup-ways.js';
import { changeoverRow, costCell, PLAIN_ITEMS } from '../cost/support/cost-cell.js';

// Moving the harness takes 4 connectors of 3 minutes; a box plugs in 2 and is checked in 1.
const cell = costCell({ ...PLAIN_ITEMS, harness_elsewhere_per_year: 0, box_price: 300 }, [
  changeoverRow('a', 100),
  changeoverRow('b', 40),
  changeoverRow('c', 20),
]);

it('a harness that is still there is not moved, in a week of set-ups as in the cost case', () => {
  const found = costCase(cell, null, { trials: 1, turns: false });
  if (found.status !== 'found') throw new Error(found.recommendation);
  const minutes = (asked: Parameters<typeof setupWays>[2], otherwise: 'case' | 'harness' | 'box') =>
    Object.values(setupWays(cell, found, asked, otherwise)).map(
      ({ way, minutes }) => `${way} ${Number(minutes.toFixed(9))}`,
    );
  // Of its 100 changeovers a finds the harness elsewhere 60 times.
  expect(minutes({}, 'harness')).toEqual(['harness 7.2', 'harness 12', 'harness 12']);
  expect(minutes({ b: 'box' }, 'harness')).toEqual(['harness 2.4', 'box 3', 'harness 12']);
  expect(minutes({}, 'box')).toEqual(['box 3', 'box 3', 'box 3']);
  const chosen = found.alternatives.find(({ name }) => name === found.decision)!;
  const boxed = Object.entries(chosen.ways).map(([, way]) => (way === 'own box' ? 'box' : way));
  expect(minutes({}, 'case').map((text) => text.split(' ')[0])).toEqual(boxed);
  expect(boxed).toContain('box');
});
