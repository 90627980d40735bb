/** Every published or recomputed interference value, one test an entry; an entry that no rule knows fails. */
import { describe, expect, it } from 'vitest';
import { constantServiceInterference } from '../../../src/core/interference/constant-service-interference.js';
import { finiteSourceQueue } from '../../../src/core/interference/finite-source-queue.js';
import { randomServicing } from '../../../src/core/interference/random-servicing.js';
import {
  synchronousCostPerPart,
  synchronousRound,
  synchronousServicing,
} from '../../../src/core/interference/synchronous-servicing.js';
import { wrightInterference } from '../../../src/core/interference/wright-interference.js';
import { moveTime } from '../../../src/core/model/move-time.js';
import { referenceChecks } from '../../support/reference.js';

interface Check {
  readonly id: string;
  readonly inputs: Record<string, number>;
  readonly expected: number | number[];
  readonly tolerance: number;
}

const MIN = 60;
const times = (i: Check['inputs']) => ({ serviceS: i.l * MIN, runS: i.m * MIN, walkS: i.w * MIN });
const costs = (i: Check['inputs']) => ({
  robotPerH: i.operator_per_h,
  machinePerH: i.machine_per_h,
  partsPerTurn: i.units_per_cycle ?? 1,
});
const costAt = (i: Check['inputs'], n: number) => synchronousCostPerPart(times(i), n, costs(i));
const lamMu = (i: Check['inputs']) =>
  finiteSourceQueue({ runS: 1 / i.lam, serviceS: 1 / i.mu, machines: i.N, servers: i.c ?? 1 });
/** Peck and Hazelwood: X = T / (T + U). */
const pheck = (i: Check['inputs']) =>
  finiteSourceQueue({ runS: 1 - i.X, serviceS: i.X, machines: i.N, servers: i.M });
const printers = (i: Check['inputs']) =>
  finiteSourceQueue({ runS: i.U_h, serviceS: i.T_h, machines: i.N, servers: i.M }).runningMachines;

const numbers = Array.from({ length: 30 }, (_, k) => k + 1);
const cheapest = (i: Check['inputs']) =>
  numbers.reduce((best, n) => (costAt(i, n) < costAt(i, best) ? n : best));
/** Machines stand further apart the more there are: the walk grows with their number. */
const largestWithoutIdle = (i: Check['inputs']) =>
  Math.max(
    ...numbers.filter(
      (n) => synchronousRound({ serviceS: i.Ts_s, runS: i.Tm_s, walkS: 5 + 3 * n }, n).machineIdleS === 0,
    ),
  );

function erlangB(servers: number, load: number): number {
  let b = 1;
  for (let n = 1; n <= servers; n++) b = (load * b) / (n + load * b);
  return b;
}

/** First matching pattern computes the value. */
const RULES: [RegExp, (i: Check['inputs'], c: Check) => number | number[]][] = [
  [/^sync\..*(nprime|niebel\.N)$/, (i) => synchronousServicing(times(i))],
  [
    /^sync\.groover\.cluster\.hourly$/,
    (i) => (costAt(i, 2) * 2 * i.units_per_cycle * 60 * MIN) / synchronousRound(times(i), 2).roundS,
  ],
  [/^sync\.groover\.cluster\.cost(\d)$/, (i, c) => costAt(i, Number(c.id.at(-1)))],
  [/^sync\.groover\.cluster\.idlepct$/, (i) => 100 - synchronousRound(times(i), 2).robotUtilizationPct],
  [/^sync\..*(optimum|opt)$/, (i) => cheapest(i)],
  [/^sync\..*(cost|TEC)/, (i) => costAt(i, i.N)],
  [/^sync\.threeMachines\.idle/, (i) => synchronousRound(times(i), i.N).robotIdleS / MIN],
  [/^sync\.groover225\.Tc$/, (i) => synchronousRound({ serviceS: i.Ts_s, runS: i.Tm_s, walkS: 0 }, 1).roundS],
  [/^sync\.groover225\.nmax$/, (i) => largestWithoutIdle(i)],
  [/^random\.niebel\.probs$/, (i) => [...randomServicing(i.n, i.p_down).chanceDown]],
  [/^random\.niebel\.lost$/, (i) => randomServicing(i.n, i.p_down).waitingMachines * i.hours],
  [/^random\.niebel\.lostpct$/, (i) => randomServicing(i.n, i.p_down).lostPct],
  [/^random\.binom/, (i) => randomServicing(i.n, i.p_down, i.operators).lostPct / 100],
  [/^wright\.niebel\.interf$/, (i) => (wrightInterference(i.N, i.X) / 100) * i.attention_min],
  [/^wright\.niebel\.std$/, (i) => (150 + 3 + (wrightInterference(i.N, i.X) / 100) * 3) / i.N],
  [/^wright\./, (i) => wrightInterference(i.N, i.X)],
  [/^pheck.*D$/, (i) => pheck(i).chanceWait],
  [/^pheck.*F$/, (i) => pheck(i).efficiency],
  [/^five\.U20T2\.M\d\.J/, printers],
  [/^finite\.six\.P0$/, (i) => lamMu(i).chanceDown[0]],
  [/^finite\.six\.Lq$/, (i) => lamMu(i).waiting],
  [/^finite\.six\.L$/, (i) => lamMu(i).down],
  [/^finite\.six\.Wq$/, (i) => lamMu(i).waitS],
  [/^finite\.six\.W$/, (i) => lamMu(i).downS],
  [
    /^mmcN\./,
    (i) => {
      const q = lamMu(i);
      return [q.runningPct / 100, q.serverUtilizationPct / 100, q.waitS * i.mu, q.waiting];
    },
  ],
  [/^mmcn\.N3c2$/, (i) => [...lamMu(i).chanceDown]],
  [/^identity\.erlangB$/, (i) => lamMu(i).chanceDown[0]],
  [/^ashcroft\./, (i) => constantServiceInterference(i.N, 1, i.k).runningMachines],
  [
    /^insens\./,
    (i) =>
      finiteSourceQueue({ runS: i.run_const, serviceS: i.svc_exp, machines: i.N, servers: 1 }).runningPct /
      100,
  ],
  [
    /^detdet\./,
    (i) => synchronousRound({ serviceS: i.svc, runS: i.run, walkS: 0 }, i.N).machineUtilizationPct / 100,
  ],
  [
    /^mva\./,
    (i) => {
      const q = finiteSourceQueue({ runS: i.Z, serviceS: i.S, machines: i.N, servers: 1 });
      return [q.perS, q.downS];
    },
  ],
  [/^kin\.tri$/, (i) => [moveTime(i.d_mm, i.v, i.a), (i.a * moveTime(i.d_mm, i.v, i.a)) / 2]],
  [/^kin\./, (i) => moveTime(i.d_mm, i.v, i.a)],
];

describe.each(['interference', 'finite-source', 'move-time'])('reference values of %s', (file) => {
  it.each(
    referenceChecks<Check>(file)
      // Of a general service there is no formula here; the simulation is held against this one.
      .filter(({ id }) => id !== 'mg1N.E2')
      .map((c) => [c.id, c] as const),
  )('%s', (id, check) => {
    const rule = RULES.find(([pattern]) => pattern.test(id));
    expect(rule, `no rule computes ${id}`).toBeDefined();
    const found = [rule![1](check.inputs, check)].flat();
    const expected = [check.expected].flat();
    expect(found).toHaveLength(expected.length);
    expected.forEach((e, k) => {
      expect(Math.abs(found[k] - e), `found ${found[k]}, expected ${e}`).toBeLessThanOrEqual(
        check.tolerance + 1e-12,
      );
    });
  });
});

it('the closed form of an Erlang B recursion equals the chance that no machine is down', () => {
  const q = finiteSourceQueue({ runS: 20, serviceS: 2, machines: 6, servers: 1 });
  expect(q.chanceDown[0]).toBeCloseTo(erlangB(6, 10), 12);
});
