/**
 * Synchronous servicing: one robot (or worker) goes round identical machines that all need it for the same time.
 * Everything is constant, so no machine waits until the round is longer than the machine's own cycle.
 *
 * Source: n' = (l + m) / (l + w), as in Tompkins, White, Bozer, Tanchoco, *Facilities Planning*; Freivalds and
 * Niebel, *Methods, Standards and Work Design*.
 */

/** Times of one machine's turn; any one unit for all three, seconds in this program. */
export interface SynchronousTimes {
  /** l: the robot is at the machine and the machine stands (load and unload), 0 or more. */
  readonly serviceS: number;
  /** m: the machine runs by itself, 0 or more. */
  readonly runS: number;
  /** w: the robot is on its way to the next machine, 0 or more. */
  readonly walkS: number;
}

export interface SynchronousRound {
  readonly machines: number;
  /** Time in which every machine gets one turn: max(l + m, N (l + w)). */
  readonly roundS: number;
  readonly robotIdleS: number;
  /** Time that each machine waits for the robot in a round. */
  readonly machineIdleS: number;
  /** Share of the round in which the robot works or walks, 0 to 100. */
  readonly robotUtilizationPct: number;
  /** Share of the round in which a machine runs, 0 to 100. */
  readonly machineUtilizationPct: number;
}

/**
 * Number of machines at which robot and machines are both never idle; a fraction in general.
 *
 * @returns n' = (l + m) / (l + w)
 * @throws RangeError where a time is negative or not finite, or l + w is 0
 * @example synchronousServicing({ serviceS: 300, runS: 1200, walkS: 60 }) // 4.1666...
 */
export function synchronousServicing(times: SynchronousTimes): number {
  const { serviceS, runS, walkS } = checkedTimes(times);
  return (serviceS + runS) / (serviceS + walkS);
}

/**
 * What one round of N machines looks like.
 *
 * @param machines N, a whole number of 1 or more
 * @throws RangeError where an argument is out of range
 * @example synchronousRound({ serviceS: 5, runS: 20, walkS: 1 }, 3).robotIdleS // 7
 */
export function synchronousRound(times: SynchronousTimes, machines: number): SynchronousRound {
  const { serviceS, runS, walkS } = checkedTimes(times);
  if (!Number.isInteger(machines) || machines < 1)
    throw new RangeError('machines must be a whole number from 1');
  const ownS = serviceS + runS;
  const robotS = machines * (serviceS + walkS);
  const roundS = Math.max(ownS, robotS);
  return {
    machines,
    roundS,
    robotIdleS: roundS - robotS,
    machineIdleS: roundS - ownS,
    robotUtilizationPct: (100 * robotS) / roundS,
    machineUtilizationPct: (100 * runS) / roundS,
  };
}

/** Money per hour, and parts that one turn of a machine makes (default 1). */
export interface ServicingCosts {
  readonly robotPerH: number;
  readonly machinePerH: number;
  readonly partsPerTurn?: number;
}

/**
 * Cost of one part with N machines: (robot + N machine) x round / (N parts).
 *
 * @returns money per part
 * @throws RangeError where an argument is out of range
 * @example synchronousCostPerPart({ serviceS: 300, runS: 1200, walkS: 60 }, 4, { robotPerH: 12, machinePerH: 30 }) // 13.75
 */
export function synchronousCostPerPart(
  times: SynchronousTimes,
  machines: number,
  costs: ServicingCosts,
): number {
  const { robotPerH, machinePerH, partsPerTurn = 1 } = costs;
  if (!(robotPerH >= 0) || !(machinePerH >= 0)) throw new RangeError('costs must be 0 or more');
  if (!(partsPerTurn > 0)) throw new RangeError('parts per turn must be above 0');
  const { roundS } = synchronousRound(times, machines);
  return ((robotPerH + machines * machinePerH) * roundS) / 3600 / (machines * partsPerTurn);
}

function checkedTimes(times: SynchronousTimes): SynchronousTimes {
  for (const [name, value] of Object.entries(times)) {
    if (!(value >= 0) || !Number.isFinite(value))
      throw new RangeError(`${name} must be 0 or more, found ${value}`);
  }
  if (!(times.serviceS + times.walkS > 0)) throw new RangeError('service and walk must not both be 0');
  if (!(times.serviceS + times.runS > 0)) throw new RangeError('service and run must not both be 0');
  return times;
}
