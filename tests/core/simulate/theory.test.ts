/**
 * The simulation against queueing theory: its interval must cover the theory's value at the stated confidence, with
 * fixed seeds, and must not cover a value that is wrong by a little.
 */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { type ReplicationSetup, runReplication } from '../../../src/core/floor/floor-run.js';
import { PROCESSING, SLOT_STATES } from '../../../src/core/floor/slot-state.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { type MeanInterval, meanInterval } from '../../../src/core/statistics/mean-interval.js';
import { referenceChecks } from '../../support/reference.js';
import { isDeep, sample } from '../../support/size.js';
import { likeMachines, ROBOT, station, step } from './cells.js';

interface Check {
  id: string;
  inputs: Record<string, number>;
  expected: number | number[];
}
const checks = referenceChecks<Check>('interference');
const byId = (id: string): Check => checks.find((c) => c.id === id)!;

/** Many machines take long; the deep run has them. */
const isInRun = ({ inputs }: Check): boolean => isDeep || (inputs.N ?? 0) <= 6;

const CONFIDENCE = 0.99;
const REPLICATIONS = 20;

/** Mean number of stations that process. */
function running(cell: Cell, more: Partial<ReplicationSetup> = {}, serviceS = 1): MeanInterval {
  const compiled = compileCell(cell);
  const setup: ReplicationSetup = {
    program: 'first',
    plan: null,
    calendar: null,
    operators: 1,
    seed: 20240607,
    warmupS: 500 * serviceS,
    shiftsS: [20_000 * serviceS],
    ...more,
  };
  const values = Array.from({ length: REPLICATIONS }, (_, k) => {
    const r = runReplication(compiled, setup, k);
    let sum = 0;
    for (let s = 0; s < compiled.stationCount; s++) sum += r.stationS[s * SLOT_STATES + PROCESSING]!;
    return sum / r.countedS;
  });
  return meanInterval(values, CONFIDENCE);
}

function exponentialCycles(cell: Cell, meanS: number): Cell {
  return {
    ...cell,
    variation: [
      ...cell.variation,
      { station: '*', element: 'cycle', distribution: 'exponential', parameters: [meanS] },
    ],
  };
}

function covers(interval: MeanInterval, value: number): void {
  expect(interval.ciLow).toBeLessThanOrEqual(value);
  expect(interval.ciHigh).toBeGreaterThanOrEqual(value);
  const wrong = 0.02 * value;
  expect(interval.ciLow <= value + wrong && value + wrong <= interval.ciHigh).toBe(false);
  expect(interval.ciLow <= value - wrong && value - wrong <= interval.ciHigh).toBe(false);
}

describe('exponential runs, constant service (Ashcroft)', () => {
  it.each(checks.filter((c) => c.id.startsWith('ashcroft')))('$id', ({ inputs, expected }) => {
    const { N, k } = inputs as { N: number; k: number };
    covers(running(exponentialCycles(likeMachines(N, 1 / k, 1), 1 / k)), expected as number);
  });

  it('holds for the swap with two hands as well', () => {
    const cell = exponentialCycles(likeMachines(6, 10, 1), 10);
    covers(running({ ...cell, robot: { ...ROBOT, hands: 2 } }), byId('ashcroft.k0.1.N6').expected as number);
  });
});

describe('exponential runs and services (finite source)', () => {
  it.each(sample(checks.filter((c) => isInRun(c) && c.id.startsWith('mmcN') && c.inputs.c === 1)))(
    '$id',
    ({ inputs, expected }) => {
      const { N, lam, mu } = inputs as { N: number; lam: number; mu: number };
      const cell = exponentialCycles(likeMachines(N, 1 / lam, 1 / mu), 1 / lam);
      const service = {
        station: '*',
        element: 'load',
        distribution: 'exponential',
        parameters: [1 / mu],
      } as const;
      covers(running({ ...cell, variation: [...cell.variation, service] }), N * (expected as number[])[0]!);
    },
  );

  it('an Erlang service (Takacs)', () => {
    const cell = exponentialCycles(likeMachines(6, 10, 1), 10);
    const service = { station: '*', element: 'load', distribution: 'erlang', parameters: [1, 2] } as const;
    covers(running({ ...cell, variation: [...cell.variation, service] }), byId('mg1N.E2').expected as number);
  });

  it('constant runs give the same as exponential ones', () => {
    const service = { station: '*', element: 'load', distribution: 'exponential', parameters: [2] } as const;
    const cell = likeMachines(6, 20, 2, { variation: [service] });
    covers(running(cell), 6 * (byId('insens.D.M.1.6').expected as number));
  });

  it('nothing random: the deterministic cycle', () => {
    const { expected } = byId('detdet.N4');
    expect(running(likeMachines(4, 5, 1)).mean / 4).toBeCloseTo(expected as number, 4);
  });
});

/** n machines that always run but for stops, which c operators clear; the robot takes no time. */
function repairShop(n: number, upS: number, repairS: number): Cell {
  const cell = likeMachines(n, upS / 2, 0, {
    variation: [{ station: '*', element: 'repair', distribution: 'exponential', parameters: [repairS / 60] }],
  });
  return {
    ...cell,
    stations: cell.stations.map((s) =>
      s.kind === 'machine' ? { ...s, mtbfH: upS / 3600, mttrMin: repairS / 60 } : s,
    ),
  };
}

describe('random stops cleared by operators (finite source, several servers)', () => {
  it.each(
    sample(
      checks.filter((c) => isInRun(c) && (c.id.startsWith('mmcN') || /^five\.U20T2\..*exact$/.test(c.id))),
    ),
  )('$id', (check) => {
    const { N, U_h, T_h } = check.inputs as { N: number; U_h: number; T_h: number };
    const c = (check.inputs.c ?? check.inputs.M)!;
    const up = U_h ?? 1 / check.inputs.lam!;
    const down = T_h ?? 1 / check.inputs.mu!;
    const theory = Array.isArray(check.expected) ? N * check.expected[0]! : check.expected;
    covers(running(repairShop(N, 100 * up, 100 * down), { operators: c }, 100 * down), theory);
  });

  it('with an operator for each, the number down is binomial (random servicing)', () => {
    const { inputs, expected } = byId('random.niebel.lostpct') as Check & { expected: number };
    const { n, p_down: p } = inputs as { n: number; p_down: number };
    const values = Array.from({ length: REPLICATIONS }, (_, k) =>
      excessDown(repairShop(n, 300 * (1 - p), 300 * p), n, k),
    );
    const lost = meanInterval(
      values.map((v) => (100 * v) / n),
      CONFIDENCE,
    );
    expect(lost.ciLow).toBeLessThanOrEqual(expected);
    expect(lost.ciHigh).toBeGreaterThanOrEqual(expected);
    expect(lost.ciHigh).toBeLessThan(expected * 1.05);
    expect(lost.ciLow).toBeGreaterThan(expected * 0.95);
  });
});

/** Time average of the machines down beyond the first, followed through the trace. */
function excessDown(cell: Cell, operators: number, replication: number): number {
  let down = 0;
  let last = 0;
  let area = 0;
  const endS = 400_000;
  runReplication(
    compileCell(cell),
    {
      program: 'first',
      plan: null,
      calendar: null,
      operators,
      seed: 5,
      warmupS: 0,
      shiftsS: [endS],
      trace: (timeS, what) => {
        if (what !== 'stop' && what !== 'run') return;
        area += Math.max(0, down - 1) * (timeS - last);
        last = timeS;
        down += what === 'stop' ? 1 : -1;
      },
    },
    replication,
  );
  return (area + Math.max(0, down - 1) * (endS - last)) / endS;
}

describe("Wright's formula", () => {
  // An empirical formula without a stated distribution: above constant service, near exponential service.
  it.each(sample(checks.filter((c) => /^wright\.X(5|10)\.N[46]$/.test(c.id))))(
    '$id lies above constant service and at most 15% above exponential',
    ({ inputs, expected }) => {
      const { X, N } = inputs as { X: number; N: number };
      const base = exponentialCycles(likeMachines(N, X, 1), X);
      const service = {
        station: '*',
        element: 'load',
        distribution: 'exponential',
        parameters: [1],
      } as const;
      const waitPct = (a: MeanInterval): number => 100 * ((X * N) / a.mean - X - 1);
      expect(expected as number).toBeGreaterThan(waitPct(running(base)));
      expect(expected as number).toBeLessThan(
        1.15 * waitPct(running({ ...base, variation: [...base.variation, service] })),
      );
    },
  );
});

describe('scatter keeps its mean', () => {
  it('a station with two parts keeps each part at its own cycle', () => {
    const cell: Cell = {
      ...likeMachines(1, 100, 0),
      routes: [
        { part: 'a', steps: [step(1, ['in']), step(2, ['mill_1'], { cycleS: 30 }), step(3, ['out'])] },
        { part: 'b', steps: [step(1, ['in']), step(2, ['mill_1'], { cycleS: 90 }), step(3, ['out'])] },
      ],
      stations: [station('in', 'infeed'), station('mill_1', 'machine'), station('out', 'outfeed')],
      parts: ['a', 'b'].map((part) => ({
        part,
        contribution: null,
        perShift: null,
        ratio: 1,
        yieldPct: 100,
      })),
      variation: [{ station: 'mill_1', element: 'cycle', distribution: 'lognormal', parameters: [10, 4] }],
    };
    const setup = {
      program: 'first',
      plan: null,
      calendar: null,
      operators: 1,
      seed: 3,
      warmupS: 0,
      shiftsS: [120_000],
    } as const;
    const rates = Array.from(
      { length: REPLICATIONS },
      (_, k) => runReplication(compileCell(cell), setup, k).good[0]!,
    );
    const { ciLow, ciHigh } = meanInterval(rates, CONFIDENCE);
    expect(ciLow).toBeLessThan(1000);
    expect(ciHigh).toBeGreaterThan(1000);
  });
});
