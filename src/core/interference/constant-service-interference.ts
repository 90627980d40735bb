/**
 * One robot whose service time is constant (Ashcroft's numbers), and N machines whose run times are
 * exponential: the queue M/G/1//N.
 *
 * Source: the product form of L. Takacs for M/G/1//N, held in the tests against the exponential case, numbers worked
 * out another way and simulation; H. Ashcroft, *J. Royal Statistical Society B* 12, 1950, 145-151 for constant service.
 * With r = service / run, phi the Laplace transform of the service time and lambda = 1 / run:
 * idle share of the robot = 1 / (1 + N r S), S = sum over j of C(N-1, j) prod over i = 1..j of (1/phi(i lambda) - 1).
 * All terms are positive, and are summed by their logarithms, so N = 200 loses no digits.
 */
import { exp, expm1, log } from '../numbers/functions.js';

export interface ServiceInterference {
  /** Mean number of running machines (Ashcroft's A). */
  readonly runningMachines: number;
  readonly runningPct: number;
  readonly robotUtilizationPct: number;
  /** Mean wait for the robot per service. */
  readonly waitS: number;
  /** Services per unit of time. */
  readonly perS: number;
}

/**
 * Constant service time.
 *
 * @param machines N, a whole number from 1 to 1000
 * @param runS mean run time, above 0
 * @param serviceS service time, above 0
 * @throws RangeError where an argument is out of range
 * @example constantServiceInterference(6, 10, 1).runningMachines // 5.277856
 */
export function constantServiceInterference(
  machines: number,
  runS: number,
  serviceS: number,
): ServiceInterference {
  if (!Number.isInteger(machines) || machines < 1 || machines > 1000)
    throw new RangeError('machines must be a whole number from 1 to 1000');
  for (const s of [runS, serviceS])
    if (!(s > 0) || !Number.isFinite(s)) throw new RangeError('run and service must be above 0');
  const ratio = serviceS / runS;
  const logNrS = log(machines * ratio) + logSum(machines, ratio);
  const busy = logNrS > 700 ? 1 : 1 / (1 + exp(-logNrS));
  const runningMachines = busy / ratio;
  const perS = busy / serviceS;
  return {
    runningMachines,
    runningPct: (100 * runningMachines) / machines,
    robotUtilizationPct: 100 * busy,
    waitS: Math.max(0, (machines - runningMachines) / perS - serviceS),
    perS,
  };
}

/** Logarithm of S above. */
function logSum(machines: number, ratio: number): number {
  // log(e^x - 1), written so that it overflows for no x.
  const logGrowth = (x: number): number => x + log(-expm1(-x));
  const logs = [0];
  for (let j = 1; j < machines; j++)
    logs.push((logs[j - 1] ?? 0) + log((machines - j) / j) + logGrowth(j * ratio));
  const top = logs.reduce((a, b) => Math.max(a, b));
  return top + log(logs.reduce((sum, l) => sum + exp(l - top), 0));
}
