// A demand per week is one per shift times the shifts of the week, and a shift more does not ask for more.
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { freshFolder } from '../cli/run-in.js';
import { quickShop } from '../support/quick-shop.js';
import { deepTest } from '../support/size.js';
import { type Json, jsonOf } from './json-of.js';

const cwd = freshFolder();
const shop = quickShop(join(cwd, 'shop'));
const asked = (command: string, column: string, amount: number, ...more: string[]): Promise<Json> =>
  jsonOf(cwd, command, shop, '--set', `parts.cap.${column}=${amount}`, ...more);

test('schedule and cost case: the week of the first pattern', async () => {
  const commands: readonly (readonly [string, (r: Json) => unknown])[] = [
    ['schedule', (r) => [r.periodS, r.partsPerH]],
    ['costcase', (r) => [r.increment.npv, r.decision]],
  ];
  for (const [command, of] of commands) {
    const more = command === 'costcase' ? ['--trials', '100'] : [];
    const perWeek = await asked(command, 'per_week', 500, ...more);
    expect(of(perWeek), command).toEqual(of(await asked(command, 'per_shift', 100, ...more)));
  }
});

deepTest('shifts and mix: of each pattern as much is asked for, however many shifts it has', async () => {
  const amount = 700;
  const { patterns, performance } = await asked('shifts', 'per_week', amount);
  expect(new Set(patterns.map((p: Json) => p.shiftsPerWeek)).size).toBe(2);
  for (const [k, p] of patterns.entries()) {
    expect(p.demandMetPct).toBeCloseTo((100 * p.partsPerWeek.cap) / amount, 6);
    expect(performance[k].takt[0].taktS).toBeCloseTo((p.hoursPerWeek * 3600) / amount, 6);
    const perShift = await asked('shifts', 'per_shift', amount / p.shiftsPerWeek);
    expect(p.demandMetPct).toBeCloseTo(perShift.patterns[k].demandMetPct, 6);
  }
  // The least to be made is out of reach in no pattern, so that the most to be sold binds.
  const mix = await asked('mix', 'per_week', amount, '--demand', 'most');
  for (const p of mix.patterns) expect(p.parts[0].goodPerWeek).toBeLessThanOrEqual(amount + 1e-6);
});
