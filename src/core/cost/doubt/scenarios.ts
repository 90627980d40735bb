/** The case with every doubtful input at its worse end at once, as planned, and at its better end. */
import { type CaseInputs, type TaxBasis, withNumbers } from '../case-inputs.js';
import { incrementFor } from '../increment-result.js';
import type { Way } from '../plan-flows.js';
import type { Scenario } from '../result.js';
import type { TornadoBar } from './tornado.js';

/**
 * @param ways that are held against moving the harness
 * @param bars of these ways: which end of an item is the worse one
 */
export function scenarios(
  inputs: CaseInputs,
  ways: readonly Way[],
  basis: TaxBasis,
  bars: readonly TornadoBar[],
): Scenario[] {
  const ends = (isWorse: boolean) =>
    Object.fromEntries(
      bars.map(({ item, low, high, npvLow, npvHigh }) => [item, npvLow < npvHigh === isWorse ? low : high]),
    );
  const at = (name: Scenario['name'], changed: Readonly<Record<string, number>>): Scenario => {
    const { npv, irrPct, paybackYears } = incrementFor(withNumbers(inputs, changed), ways, basis);
    return { name, npv, irrPct, paybackYears };
  };
  return [at('low', ends(true)), at('expected', {}), at('high', ends(false))];
}
