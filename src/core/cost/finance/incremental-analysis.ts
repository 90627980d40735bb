/** Challenger against defender: which of several alternatives is worth its extra capital. */
import { requireFlows, requireRate } from './flow-arguments.js';
import { internalRatesOfReturn } from './internal-rates-of-return.js';
import { netPresentValue } from './net-present-value.js';

export interface Alternative {
  readonly name: string;
  /** Amounts by year from 0; the shorter rows are taken as 0 in the years that they lack. */
  readonly flows: readonly number[];
}

/** One comparison: the increment is the challenger's flows less the defender's. */
export interface Challenge {
  readonly challenger: string;
  readonly defender: string;
  readonly increment: readonly number[];
  readonly npv: number;
  /** Every rate of return of the increment, as fractions. */
  readonly rates: readonly number[];
  readonly winner: string;
}

export interface IncrementalAnalysis {
  readonly best: string;
  readonly challenges: readonly Challenge[];
}

/**
 * Puts the alternatives in order of capital (money out in year 0, least first) and lets each in turn challenge the
 * best so far. The challenger wins when the net present value of the increment is above 0, which for an increment
 * that is paid first and earns later is the same as its rate of return being above the wanted rate; unlike that rate
 * it stays clear where the increment has several rates or none. Standard method, for example Newnan, Eschenbach &
 * Lavelle, *Engineering Economic Analysis*, chapter 8.
 *
 * @param alternatives at least one; for alternatives that earn money put `do nothing` with flows of 0 among them
 * @param rate the rate that money has to earn, a fraction above -1
 * @throws RangeError where there is no alternative, two have the same name, or a number is outside its range
 */
export function incrementalAnalysis(alternatives: readonly Alternative[], rate: number): IncrementalAnalysis {
  requireRate(rate);
  if (alternatives.length === 0) throw new RangeError('there must be at least one alternative');
  const names = new Set(alternatives.map((a) => a.name));
  if (names.size < alternatives.length) throw new RangeError('every alternative must have its own name');
  for (const alternative of alternatives) requireFlows(alternative.flows);
  const [first, ...others] = [...alternatives].sort((a, b) => b.flows[0]! - a.flows[0]!);
  const challenges: Challenge[] = [];
  let defender = first!;
  for (const challenger of others) {
    const challenge = challengeOf(challenger, defender, rate);
    challenges.push(challenge);
    if (challenge.winner === challenger.name) defender = challenger;
  }
  return { best: defender.name, challenges };
}

function challengeOf(challenger: Alternative, defender: Alternative, rate: number): Challenge {
  const increment = incrementOf(challenger.flows, defender.flows);
  const npv = netPresentValue(rate, increment);
  return {
    challenger: challenger.name,
    defender: defender.name,
    increment,
    npv,
    rates: internalRatesOfReturn(increment),
    winner: npv > 0 ? challenger.name : defender.name,
  };
}

/** The first flows less the second, year by year. */
export function incrementOf(flows: readonly number[], less: readonly number[]): number[] {
  const years = Math.max(flows.length, less.length);
  return Array.from({ length: years }, (_, year) => (flows[year] ?? 0) - (less[year] ?? 0));
}
