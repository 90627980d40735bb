/** Which option of a cost case its measures, its doubt and its money are shown of. */
import { HARNESS } from './plan-words.js';

interface Option {
  readonly name: string;
  readonly increment: unknown;
  readonly incrementAfterTax: unknown;
}

export interface DecidedCase<Of extends Option, Spread> {
  readonly alternatives: readonly Of[];
  readonly decision: string;
  readonly basis: 'before tax' | 'after tax';
  readonly risk: Spread;
  readonly riskOfChoice: Spread | null;
}

/**
 * The recommended option; boxes on every machine where that is the harness or to do nothing.
 *
 * @returns the option, what it is worth against moving the harness on the basis that decides, and how that spreads
 */
export function watchedWay<Of extends Option, Spread>(
  decided: DecidedCase<Of, Spread>,
): { way: Of; increment: Of['increment'] | Of['incrementAfterTax']; risk: Spread } {
  const { alternatives, decision, basis, risk, riskOfChoice } = decided;
  const chosen = alternatives.find(({ name }) => name === decision && name !== HARNESS);
  const way = chosen ?? alternatives[1]!;
  return {
    way,
    increment: basis === 'after tax' ? way.incrementAfterTax : way.increment,
    risk: chosen === undefined ? risk : (riskOfChoice ?? risk),
  };
}
