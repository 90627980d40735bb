/** Checks of the arguments that the money measures share. Misuse throws a RangeError in plain words. */

/** @throws RangeError unless there is at least one flow and every flow is a finite number */
export function requireFlows(flows: readonly number[]): void {
  if (flows.length === 0) throw new RangeError('flows must hold at least the amount of year 0');
  flows.forEach((flow, year) => {
    if (!Number.isFinite(flow))
      throw new RangeError(`the flow of year ${year} is ${flow}: it must be a finite number`);
  });
}

/** @throws RangeError unless the rate is a finite fraction above -1 (-100%) */
export function requireRate(rate: number, what = 'the rate'): void {
  if (!Number.isFinite(rate) || rate <= -1)
    throw new RangeError(`${what} is ${rate}: it must be a finite fraction above -1 (0.08 means 8%)`);
}

/** @throws RangeError unless the count of years is a whole number of `least` or more */
export function requireYears(years: number, least = 1, what = 'the number of years'): void {
  if (!Number.isInteger(years) || years < least)
    throw new RangeError(`${what} is ${years}: it must be a whole number of ${least} or more`);
}

/** @throws RangeError unless the amount is a finite number of 0 or more */
export function requireAmount(amount: number, what: string): void {
  if (!Number.isFinite(amount) || amount < 0)
    throw new RangeError(`${what} is ${amount}: it must be a finite amount of 0 or more`);
}
