// Every input in doubt at its worse end at once, as planned, and at its better end.
import { expect, it } from 'vitest';
import { costCase } from '../../../../src/core/cost/cost-case.js';
import { changeoverRow, costCell, type ItemValue, PLAIN_ITEMS } from '../support/cost-cell.js';

function found(items: Record<string, ItemValue>) {
  const outcome = costCase(costCell({ ...PLAIN_ITEMS, ...items }, [changeoverRow('m', 100)]), null, {
    trials: 5,
  });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

it('low and high are the cases with all worse and all better values typed', () => {
  const { scenarios, increment } = found({
    box_price: [800, 600, 1000],
    labour_per_h: [36, 30, 40],
    box_plug_min: [2, 1, 4],
  });
  const npv = (items: Record<string, ItemValue>) => found(items).increment.npv;
  expect(scenarios.map(({ name }) => name)).toEqual(['low', 'expected', 'high']);
  expect(scenarios[0]!.npv).toBeCloseTo(npv({ box_price: 1000, labour_per_h: 30, box_plug_min: 4 }), 9);
  expect(scenarios[1]!.npv).toBe(increment.npv);
  expect(scenarios[2]!.npv).toBeCloseTo(npv({ box_price: 600, labour_per_h: 40, box_plug_min: 1 }), 9);
});

it('without doubt all three are the plan', () => {
  const { scenarios, increment } = found({});
  expect(new Set(scenarios.map(({ npv }) => npv))).toEqual(new Set([increment.npv]));
});
