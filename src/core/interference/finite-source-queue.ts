/**
 * The finite-source queue M/M/c//N: N machines that run for exponential times, c servers whose service times are
 * exponential, first come first served. Also called machine repair or machine interference.
 *
 * Source: birth-death equations, in any queueing text; tables by L. G. Peck and R. N. Hazelwood, *Finite Queuing
 * Tables*, 1958, whose D and F are given too. With one server the run times may have any distribution (Baskett,
 * Chandy, Muntz, Palacios, *J. ACM* 22, 1975).
 */
import { exp, log } from '../numbers/functions.js';

export interface FiniteSource {
  /** Mean time between the end of service and the next call of one machine, above 0. */
  readonly runS: number;
  /** Mean service time, above 0. */
  readonly serviceS: number;
  readonly machines: number;
  readonly servers: number;
}

export interface FiniteSourceResult {
  /** Chance that k machines wait or are in service, k = 0..N. */
  readonly chanceDown: readonly number[];
  readonly runningMachines: number;
  /** Mean number waiting, without those in service (Lq). */
  readonly waiting: number;
  /** Mean number waiting or in service (L). */
  readonly down: number;
  /** Mean wait of a call until its service starts (Wq), in the unit of the inputs. */
  readonly waitS: number;
  /** Wait and service (W). */
  readonly downS: number;
  /** Calls served per unit of time. */
  readonly perS: number;
  /** Share of the servers' time in service, 0 to 100. */
  readonly serverUtilizationPct: number;
  /** Share of machine time running, 0 to 100. */
  readonly runningPct: number;
  /** Chance that a call must wait (Peck and Hazelwood's D). */
  readonly chanceWait: number;
  /** (N - waiting) / N (Peck and Hazelwood's F). */
  readonly efficiency: number;
}

/**
 * @throws RangeError where a time is not above 0, or a count is not a whole number from 1 to 10000
 * @example finiteSourceQueue({ runS: 20, serviceS: 2, machines: 5, servers: 1 }).runningMachines // 4.3605
 */
export function finiteSourceQueue(source: FiniteSource): FiniteSourceResult {
  const { runS, serviceS, machines, servers } = checkedSource(source);
  const chanceDown = stateChances(machines, servers, serviceS / runS);
  let down = 0;
  let waiting = 0;
  chanceDown.forEach((p, k) => {
    down += k * p;
    waiting += Math.max(0, k - servers) * p;
  });
  const runningMachines = machines - down;
  const perS = runningMachines / runS;
  return {
    chanceDown,
    runningMachines,
    waiting,
    down,
    waitS: waiting / perS,
    downS: down / perS,
    perS,
    serverUtilizationPct: (100 * perS * serviceS) / servers,
    runningPct: (100 * runningMachines) / machines,
    chanceWait: chanceOfWait(machines, servers, serviceS / runS),
    efficiency: (machines - waiting) / machines,
  };
}

/** Chances of 0..N machines down, built by logarithms so that no N overflows. */
function stateChances(machines: number, servers: number, ratio: number): number[] {
  const logs = [0];
  for (let k = 1; k <= machines; k++)
    logs.push((logs[k - 1] ?? 0) + log(((machines - k + 1) * ratio) / Math.min(k, servers)));
  const top = logs.reduce((a, b) => Math.max(a, b));
  const weights = logs.map((l) => exp(l - top));
  const sum = weights.reduce((a, b) => a + b);
  return weights.map((w) => w / sum);
}

/** A calling machine sees the other N - 1 as if it were not there (arrival theorem). */
function chanceOfWait(machines: number, servers: number, ratio: number): number {
  if (machines <= servers) return 0;
  return stateChances(machines - 1, servers, ratio)
    .slice(servers)
    .reduce((a, b) => a + b, 0);
}

function checkedSource(source: FiniteSource): FiniteSource {
  for (const s of [source.runS, source.serviceS])
    if (!(s > 0) || !Number.isFinite(s)) throw new RangeError('run and service must be above 0');
  for (const n of [source.machines, source.servers])
    if (!Number.isInteger(n) || n < 1 || n > 10_000)
      throw new RangeError('machines and servers must be whole numbers from 1 to 10000');
  return source;
}
