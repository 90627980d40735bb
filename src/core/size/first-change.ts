/**
 * The factor on an input at which an answer changes: a few widening steps find a factor with another answer, then the
 * gap to the last one with the same answer is halved until it is narrow.
 */

/** Factors on either side of a change. */
export interface ChangeBracket {
  /** Nearer to 1: the answer is still the same. */
  readonly same: number;
  /** Farther from 1: another answer. */
  readonly changed: number;
}

/** The gap left, as a share of the input. */
export const BRACKET_SHARE = 0.001;

/**
 * @param isSame whether the answer at a factor is that at factor 1
 * @param steps factors to look at, ever farther from 1
 * @returns null where all of them give the same answer
 */
export function firstChange(
  isSame: (factor: number) => boolean,
  steps: readonly number[],
): ChangeBracket | null {
  let same = 1;
  for (const step of steps) {
    if (isSame(step)) same = step;
    else return narrowed(isSame, { same, changed: step });
  }
  return null;
}

function narrowed(isSame: (factor: number) => boolean, bracket: ChangeBracket): ChangeBracket {
  let { same, changed } = bracket;
  while (Math.abs(changed - same) > BRACKET_SHARE) {
    const middle = (same + changed) / 2;
    if (isSame(middle)) same = middle;
    else changed = middle;
  }
  return { same, changed };
}
