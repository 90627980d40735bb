import { describe, expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import { changeoverRow, costCell, type ItemValue, PLAIN_ITEMS } from './support/cost-cell.js';

function found(items: Record<string, ItemValue>) {
  const rows = [changeoverRow('a', 100), changeoverRow('b', 40)];
  const outcome = costCase(costCell({ ...PLAIN_ITEMS, ...items }, rows), null, { trials: 1, turns: false });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

describe('what the gain is made of', () => {
  it('labour and contribution add up to what a year of changeovers costs less', () => {
    const { benefit, increment, decision } = found({ contribution_per_machine_h: 30 });
    expect(decision).toBe('a box on every machine');
    // 9 minutes a changeover: 0.60 of labour and 0.50 of contribution each.
    expect(benefit.labourPerYear).toBeCloseTo(140 * 9 * 0.6, 9);
    expect(benefit.contributionPerYear).toBeCloseTo(140 * 9 * 0.5, 9);
    expect(benefit.npvInCash).toBeCloseTo(increment.npv, 9);
  });
  it('time that is only freed is no cash; the fitter is paid all the same', () => {
    const items = { contribution_per_machine_h: 30, labour_cash_pct: 25, box_mount_h: 2 };
    const { benefit, increment } = found(items);
    const level = [1, 2, 3, 4, 5].reduce((sum, year) => sum + 1.08 ** -year, 0);
    expect(benefit.npvInCash).toBeCloseTo(increment.npv - 0.75 * 140 * 9 * 0.6 * level, 6);
  });
});

describe('costs that are easily left out', () => {
  const line = (items: Record<string, ItemValue>) =>
    found(items).assumptions.find((text) => text.startsWith('Counted as 0'));
  it('are named one by one where they are 0, and not where they are given', () => {
    expect(line({})).toContain('repeated risk assessment');
    expect(line({ risk_assessment_price: 300 })).not.toContain('risk assessment');
    const all = {
      box_fit_stand_h: 1,
      engineering_price: 1,
      programming_h: 1,
      commissioning_h: 1,
      risk_assessment_price: 1,
      contingency_pct: 1,
    };
    expect(line(all)).toBeUndefined();
  });
});
