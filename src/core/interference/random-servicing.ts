/**
 * Random servicing: machines call for the robot at random and independently, each with the same chance of needing
 * it at any moment. The number that need it is binomial; what is above the number of robots waits.
 *
 * Source: binomial servicing as in Freivalds and Niebel, *Methods, Standards and Work Design*. It ignores that a
 * waiting machine cannot call again, so it is a first guess only; `finiteSourceQueue` is the exact form for
 * exponential times.
 */
import { exp, log, log1p } from '../numbers/functions.js';

export interface RandomServicing {
  /** Chance that exactly k machines need service at once, k = 0..n; adds up to 1. */
  readonly chanceDown: readonly number[];
  /** Mean number of machines that wait: sum over k > servers of (k - servers) P(k). */
  readonly waitingMachines: number;
  /** Share of all machine time lost waiting, 0 to 100. */
  readonly lostPct: number;
}

/**
 * @param machines n, a whole number from 1 to 1000
 * @param shareDown chance that a machine needs service, 0 to 1: service / (service + run)
 * @param servers robots or workers, a whole number of 1 or more
 * @throws RangeError where an argument is out of range
 * @example randomServicing(3, 0.4).waitingMachines // 0.416
 */
export function randomServicing(machines: number, shareDown: number, servers = 1): RandomServicing {
  if (!Number.isInteger(machines) || machines < 1 || machines > 1000)
    throw new RangeError('machines must be a whole number from 1 to 1000');
  if (!(shareDown >= 0 && shareDown <= 1)) throw new RangeError('share must be from 0 to 1');
  if (!Number.isInteger(servers) || servers < 1)
    throw new RangeError('servers must be a whole number from 1');
  const chanceDown = binomialChances(machines, shareDown);
  let waitingMachines = 0;
  for (let k = servers + 1; k <= machines; k++) waitingMachines += (k - servers) * (chanceDown[k] ?? 0);
  return { chanceDown, waitingMachines, lostPct: (100 * waitingMachines) / machines };
}

/** Binomial chances by logarithms, so that n = 1000 neither overflows nor vanishes. */
function binomialChances(n: number, p: number): number[] {
  if (p === 0 || p === 1) return Array.from({ length: n + 1 }, (_, k) => (k === n * p ? 1 : 0));
  const chances: number[] = [];
  let logChoose = 0;
  for (let k = 0; k <= n; k++) {
    chances.push(exp(logChoose + k * log(p) + (n - k) * log1p(-p)));
    logChoose += log(n - k) - log(k + 1);
  }
  return chances;
}
