// What must hold of the best way to run a cell, whatever the cell: random cells of every kind from a seed, and the
// comparisons that each is held to. Each part has a contribution, so that a cell that is changed is worth the same a part.
import type { Cell } from '../../src/core/model/cell.js';
import { bestSchedule, type ScheduleOptions } from '../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import { simulateCell } from '../../src/core/simulate/simulate-cell.js';
import type { SimulationResult } from '../../src/core/simulate/simulation-result.js';
import {
  againShop,
  choiceShop,
  drawFrom,
  drawMachines,
  drawRoute,
  ends,
  feederShop,
  fixtureShop,
  gaugeShop,
  heldShop,
  independentShop,
  makeCell,
  mixedShop,
  roomyShop,
  serialShop,
} from './random-shops.js';

type Hands = 1 | 2;

export const cellKinds: Record<string, (seed: number, hands: Hands) => Cell> = {
  'machines in a row': (seed, hands) => serialShop(seed, { machines: 2 + (seed % 2), hands }).cell,
  'machines in a row with longest waits': (seed, hands) =>
    serialShop(seed, { machines: 2, hands, waitPct: 60 }).cell,
  'one of two machines, and a common one': (seed, hands) => choiceShop(seed, hands, 2).cell,
  'room for several parts, and a rack': (seed, hands) => roomyShop(seed, hands, 2).cell,
  'fixtures for several parts': (seed, hands) => fixtureShop(seed, hands, 2).cell,
  'held steps': (seed, hands) => heldShop(seed, hands, 1).cell,
  'one part in two is gauged': (seed, hands) => gaugeShop(seed, hands, 2).cell,
  'two parts that share a station': (seed, hands) => mixedShop(seed, hands, [1, 1]).cell,
  'independent machines': (seed, hands) => independentShop(seed, hands, [1, 1, 1]).cell,
  'a paced infeed': (seed, hands) => feederShop(seed, hands, 1).cell,
  'one machine twice in a row': (seed, hands) => againShop(seed, hands, 1).cell,
  'parts that cross between machines': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 3) : 0 },
      [...ends, ...drawMachines(draw, 2)],
      [
        drawRoute(draw, 'a', [{ at: 'm1' }, { at: 'm2' }]),
        drawRoute(draw, 'b', [{ at: 'm2' }, { at: 'm1' }]),
      ],
    );
  },
};

export function drawnCell(kind: string, seed: number, hands: Hands): Cell {
  const cell = cellKinds[kind]!(seed, hands);
  const draw = drawFrom(seed + 1_000_003);
  return {
    ...cell,
    parts: cell.routes.map(({ part }) => ({
      part,
      contribution: draw(1, 9),
      perShift: null,
      ratio: null,
      yieldPct: 100,
    })),
  };
}

function worth(cell: Cell, perH: Readonly<Record<string, number>>): number {
  return cell.parts.reduce((sum, { part, contribution }) => sum + contribution! * (perH[part] ?? 0), 0);
}

/** Nodes of each search: enough for cells of this size, some thousand times. */
const NODES = 60_000;

function schedule(cell: Cell, options: ScheduleOptions = {}): ScheduleFound | null {
  const outcome = bestSchedule(cell, { improvements: false, nodeLimit: NODES, ...options });
  return 'order' in outcome ? outcome : null;
}

const SAME = 1 - 1e-6;
/** Larger limits never give less, but for rounding. */
const LIMITS_SHORT = 1e-6;
/** Nor does a cell that can do more. */
const MORE_SHORT = 1e-6;

interface RuleRuns {
  readonly nodeLimit: number;
  /** That each rule is played for. */
  readonly hours: number;
}

/** Where a plain rule makes more than the schedule, more than a printed bound, or anything where there is no schedule. */
export async function faultsOfRules(
  cell: Cell,
  { nodeLimit, hours }: RuleRuns = { nodeLimit: NODES, hours: 100 },
): Promise<string[]> {
  const found = bestSchedule(cell, { improvements: false, nodeLimit });
  const hasWaits = cell.routes.some((route) => route.steps.some((step) => step.maxWaitS !== null));
  const faults: string[] = [];
  for (const dispatch of ['first', 'nearest', 'longest'] as const) {
    const runFor = (h: number) =>
      simulateCell(cell, { program: dispatch, hours: h, replications: 1, losses: false });
    // A rule knows nothing of longest waits; where it breaks one it mostly does so in the first hours.
    if (hasWaits && isBroken(await runFor(4))) continue;
    const run = await runFor(hours);
    if (isBroken(run)) continue;
    const made = Object.fromEntries(
      cell.routes.map(({ part }) => [part, (run.partsPerShift[part]!.mean * run.shifts) / run.horizonH]),
    );
    // A few parts at either end of the hours.
    const atEnds = 8 / hours;
    if (!('order' in found)) {
      if (worth(cell, made) > 0) faults.push(`${dispatch} runs for ever, the schedule is ${found.status}`);
      continue;
    }
    const { rateBoundPerH, partsPerH } = found;
    const each = Math.max(...cell.parts.map((p) => p.contribution!));
    const total = Object.values(made).reduce((sum, n) => sum + n, 0);
    if (worth(cell, made) > worth(cell, partsPerH) * 1.001 + each * atEnds)
      faults.push(`${dispatch} earns ${worth(cell, made)}, the schedule ${worth(cell, partsPerH)}`);
    if (total > rateBoundPerH.total * 1.001 + atEnds)
      faults.push(`${dispatch} makes ${total}, the bound is ${rateBoundPerH.total}`);
  }
  if (!('order' in found)) return faults;
  const { goal, total } = found.rateBoundPerH;
  if (found.partsPerH.total! > total / SAME) faults.push(`made ${found.partsPerH.total}, bound ${total}`);
  if (goal?.of === 'contribution' && worth(cell, found.partsPerH) > goal.perH / SAME)
    faults.push(`earned ${worth(cell, found.partsPerH)}, bound ${goal.perH}`);
  if (found.boundS > found.periodS / SAME) faults.push(`period ${found.periodS}, bound ${found.boundS}`);
  return faults;
}

function isBroken(run: SimulationResult): boolean {
  return run.deadlock !== null || run.overstays.some((o) => o.partsPerShift.mean > 0);
}

/** Where larger limits give less, or a set of up to three parts gives more than the default. */
export function faultsOfLimits(cell: Cell): string[] {
  const all = schedule(cell);
  if (all === null) return [];
  const most = worth(cell, all.partsPerH);
  const smaller: readonly [string, ScheduleOptions][] = [
    ['2,000 nodes', { nodeLimit: 2000 }],
    ['20,000 nodes', { nodeLimit: 20_000 }],
    ['8 visits', { maxVisits: 8 }],
    ...[1, 2, 3].map((n): [string, ScheduleOptions] => [`${n} parts a period`, { partsPerPeriod: n }]),
  ];
  return smaller.flatMap(([what, options]) => {
    const found = schedule(cell, options);
    const earned = found === null ? 0 : worth(cell, found.partsPerH);
    return earned * (1 - LIMITS_SHORT) > most ? [`${what} earn ${earned}, the default ${most}`] : [];
  });
}

/**
 * Where a cell that can do all that this one can makes less.
 *
 * @param only of the better cells those that are called so
 */
export function faultsOfMore(cell: Cell, seed: number, only = ''): string[] {
  const found = schedule(cell);
  if (found === null) return [];
  const least = worth(cell, found.partsPerH);
  const cells = [...betterCells(cell, seed)].filter(([what]) => what.includes(only));
  return cells.flatMap(([what, better]) => {
    const again = schedule(better);
    const earned = again === null ? 0 : worth(better, again.partsPerH);
    return earned < least * (1 - MORE_SHORT) ? [`with ${what} ${earned} is earned, without ${least}`] : [];
  });
}

function betterCells(cell: Cell, seed: number): Map<string, Cell> {
  const draw = drawFrom(seed + 5_000_011);
  const steps = (change: (cycleS: number) => number): Cell => ({
    ...cell,
    routes: cell.routes.map((route) => ({
      ...route,
      steps: route.steps.map((step) => ({ ...step, cycleS: change(step.cycleS) })),
    })),
  });
  const better = new Map<string, Cell>();
  const hasWaits = cell.routes.some((route) => route.steps.some((step) => step.maxWaitS !== null));
  // With longest waits a shorter time is not always better.
  if (!hasWaits) {
    const shorter = draw(1, 5);
    better.set(
      `cycles ${shorter} s shorter`,
      steps((s) => Math.max(0, s - shorter)),
    );
    better.set('shorter ways', {
      ...cell,
      travel: cell.travel.map((row) => ({ ...row, emptyS: row.emptyS / 2, loadedS: row.loadedS / 2 })),
    });
    if (cell.robot.hands === 1)
      better.set('a second hand', { ...cell, robot: { ...cell.robot, hands: 2, indexS: 0 } });
  }
  const [route] = cell.routes;
  const at = route!.steps.findIndex(
    (step, i) => i > 0 && cell.stations.some((s) => s.name === step.stations[0] && s.kind === 'machine'),
  );
  if (at > 0) {
    const [twin] = route!.steps[at]!.stations;
    const machine = cell.stations.find((s) => s.name === twin)!;
    better.set('one more alternative', {
      ...cell,
      stations: [...cell.stations, { ...machine, name: 'spare' }],
      travel: [
        ...cell.travel,
        ...cell.travel.flatMap((row) => [
          ...(row.from === twin ? [{ ...row, from: 'spare' }] : []),
          ...(row.to === twin ? [{ ...row, to: 'spare' }] : []),
        ]),
        { from: 'spare', to: twin!, emptyS: 5, loadedS: 5 },
        { from: twin!, to: 'spare', emptyS: 5, loadedS: 5 },
      ],
      routes: cell.routes.map((r, i) =>
        i > 0
          ? r
          : {
              ...r,
              steps: r.steps.map((step, k) =>
                k === at ? { ...step, stations: [...step.stations, 'spare'] } : step,
              ),
            },
      ),
    });
  }
  return better;
}
