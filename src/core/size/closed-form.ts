/** What the closed forms say for each number of machines, each with what it takes for granted. */
import { constantServiceInterference } from '../interference/constant-service-interference.js';
import { finiteSourceQueue } from '../interference/finite-source-queue.js';
import { randomServicing } from '../interference/random-servicing.js';
import {
  type SynchronousTimes,
  synchronousCostPerPart,
  synchronousRound,
  synchronousServicing,
} from '../interference/synchronous-servicing.js';
import { wrightInterference } from '../interference/wright-interference.js';

/** One form's figures by number of machines. */
export interface FormRows {
  readonly assumption: string;
  readonly rows: readonly FormRow[];
}

export interface FormRow {
  readonly machines: number;
  readonly partsPerH: number;
  /** Share of machine time running, 0 to 100. */
  readonly machineUtilizationPct: number;
  /** Share of machine time waiting for the robot, 0 to 100. */
  readonly waitRobotPct: number;
}

export interface SynchronousRow extends FormRow {
  readonly robotUtilizationPct: number;
  /** null where no costs are given. */
  readonly costPerPart: number | null;
}

export interface ClosedForm {
  /** Service l, run m and walk w that all the forms use. */
  readonly times: SynchronousTimes;
  readonly synchronous: {
    readonly assumption: string;
    /** n' = (l + m) / (l + w). */
    readonly idealMachines: number;
    readonly rows: readonly SynchronousRow[];
  };
  readonly random: FormRows;
  readonly wright: FormRows;
  readonly finiteSource: FormRows;
  readonly constantService: FormRows;
}

/** Money per hour: robot and people, and one machine. */
export interface FormCosts {
  readonly robotPerH: number;
  readonly machinePerH: number;
}

/**
 * @param times service, run and walk; run and service + walk above 0
 * @param counts the numbers of machines
 */
export function closedForm(times: SynchronousTimes, counts: readonly number[], costs: FormCosts): ClosedForm {
  const turnS = times.serviceS + times.walkS;
  const { runS } = times;
  const rows = (of: (n: number) => FormRow): FormRow[] => counts.map(of);
  return {
    times,
    synchronous: {
      assumption:
        'Constant times, identical machines, served in turn; no machine waits until the robot cycle is longer than the machine cycle.',
      idealMachines: synchronousServicing(times),
      rows: counts.map((n) => synchronousRow(times, n, costs)),
    },
    random: {
      assumption:
        'Machines call at random, independently of one another; a call that finds the robot busy is lost time (binomial).',
      rows: rows((n) => randomRow(n, runS, turnS)),
    },
    wright: {
      assumption:
        'Wright’s formula for random calls, meant for more than six machines; with fewer it runs high.',
      rows: rows((n) => {
        const waitS = (wrightInterference(n, runS / turnS) / 100) * turnS;
        return rowOf(n, runS, runS + turnS + waitS, waitS);
      }),
    },
    finiteSource: {
      assumption: 'Run and service times are exponential, first come first served.',
      rows: rows((n) => {
        const q = finiteSourceQueue({ runS, serviceS: turnS, machines: n, servers: 1 });
        return rowOf(n, runS, n / q.perS, q.waitS);
      }),
    },
    constantService: {
      assumption:
        'Run times are exponential, the robot’s time is constant, first come first served (Ashcroft).',
      rows: rows((n) => {
        const q = constantServiceInterference(n, runS, turnS);
        return rowOf(n, runS, n / q.perS, q.waitS);
      }),
    },
  };
}

/** Figures from the mean time between two parts of one machine. */
function rowOf(machines: number, runS: number, roundS: number, waitS: number): FormRow {
  return {
    machines,
    partsPerH: (3600 * machines) / roundS,
    machineUtilizationPct: (100 * runS) / roundS,
    waitRobotPct: (100 * waitS) / roundS,
  };
}

function synchronousRow(times: SynchronousTimes, machines: number, costs: FormCosts): SynchronousRow {
  const round = synchronousRound(times, machines);
  const free = costs.robotPerH === 0 && costs.machinePerH === 0;
  return {
    ...rowOf(machines, times.runS, round.roundS, round.machineIdleS),
    robotUtilizationPct: round.robotUtilizationPct,
    costPerPart: free ? null : synchronousCostPerPart(times, machines, costs),
  };
}

/** Of every machine hour a share is lost; the rest goes through the machine's own cycle. */
function randomRow(machines: number, runS: number, turnS: number): FormRow {
  const { lostPct } = randomServicing(machines, turnS / (turnS + runS));
  const ownS = runS + turnS;
  const roundS = ownS / (1 - lostPct / 100);
  return rowOf(machines, runS, roundS, roundS - ownS);
}
