/**
 * What one second less at each element would bring in parts per hour, by solving again: first the same order with the
 * shorter time, then, for cycles that are not long, a short search for a better one (for independent machines with one
 * hand mostly to its end).
 */
import type { Cell } from '../../model/cell.js';
import { type TimedOrder, timeOrder } from '../evaluate/evaluate-order.js';
import { buildPlan, type Plan } from '../plan/plan.js';
import type { Improvement } from '../result.js';
import { searchGaps } from '../search/gaps/search-gaps.js';
import { searchOrder } from '../search/order/search-order.js';
import { exchangeUnits, moveUnits } from '../search/order/units.js';

const NODES_EACH = 3000;
const GAP_NODES_EACH = 300;
/** Searches cost most where their table of robot work is large or the order long; then the same order alone is valued. */
const LARGEST_TABLE = 300_000;
const LONGEST_ORDER = 80;

/**
 * @param untilMs moment (Date.now()) after which no further element is tried
 * @returns elements that bring something, the best first; of those alike, in the order of the rows
 */
export function improvementsOf(
  cell: Cell,
  plan: Plan,
  found: TimedOrder,
  untilMs = Number.POSITIVE_INFINITY,
): Improvement[] {
  const parts = Object.values(plan.partsPerPeriod).reduce((sum, n) => sum + n, 0);
  const exchange = exchangeUnits(plan);
  const { counts } = exchange ?? moveUnits(plan);
  const states = counts.reduce((product, count) => product * (count + 1), counts.length);
  const isShort = found.order.length <= LONGEST_ORDER;
  const list: Improvement[] = [];
  for (const change of changesOf(cell, plan)) {
    if (Date.now() > untilMs) break;
    const shorter = withChange(cell, plan, change);
    const same = timeOrder(shorter, found.order);
    let periodS = Math.min(same?.periodS ?? found.periodS, found.periodS);
    const limits = { belowS: periodS, nodes: NODES_EACH, untilMs };
    const byGaps =
      exchange === null || !isShort ? null : searchGaps(shorter, { ...limits, nodes: GAP_NODES_EACH });
    const better =
      byGaps ?? (isShort && states <= LARGEST_TABLE ? searchOrder(shorter, limits, exchange !== null) : null);
    periodS = better?.best?.periodS ?? periodS;
    const gain = ((3600 * parts) / periodS - (3600 * parts) / found.periodS) / change.byS;
    if (gain > 1e-9) list.push({ element: change.element, partsPerHPerSecond: gain });
  }
  return list.sort((a, b) => b.partsPerHPerSecond - a.partsPerHPerSecond);
}

interface Change {
  readonly element: string;
  /** Seconds taken off: one, or all that there is. */
  readonly byS: number;
  readonly apply: (cell: Cell) => Cell;
}

function changesOf(cell: Cell, plan: Plan): Change[] {
  return [
    ...stepChanges(cell, plan),
    ...stationChanges(cell, plan),
    ...travelChanges(plan),
    ...indexChange(cell),
  ];
}

function stepChanges(cell: Cell, plan: Plan): Change[] {
  const used = new Set(plan.paths.flatMap((p) => p.stops.map((s) => `${p.route}|${s.step.step}`)));
  return cell.routes.flatMap((route, r) =>
    route.steps.flatMap((step) => {
      if (!used.has(`${r}|${step.step}`)) return [];
      const where = step.stations.join(' or ');
      const words = { cycleS: 'cycle', loadS: 'load', unloadS: 'unload' } as const;
      return (['cycleS', 'loadS', 'unloadS'] as const).flatMap((field) => {
        const byS = Math.min(1, step[field]);
        if (byS <= 0) return [];
        const apply = (c: Cell): Cell => ({
          ...c,
          routes: c.routes.map((other, i) =>
            i !== r
              ? other
              : {
                  ...other,
                  steps: other.steps.map((s) =>
                    s.step === step.step ? { ...s, [field]: s[field] - byS } : s,
                  ),
                },
          ),
        });
        return [{ element: `${words[field]} of ${route.part} at ${where}`, byS, apply }];
      });
    }),
  );
}

function stationChanges(cell: Cell, plan: Plan): Change[] {
  const used = new Set(plan.nodes.map((node) => node.station));
  return cell.stations.flatMap((station) =>
    (['readyS', 'closeS'] as const).flatMap((field) => {
      const byS = Math.min(1, station[field]);
      if (byS <= 0 || !used.has(station.name)) return [];
      const apply = (c: Cell): Cell => ({
        ...c,
        stations: c.stations.map((s) => (s.name === station.name ? { ...s, [field]: s[field] - byS } : s)),
      });
      return [{ element: `${field === 'readyS' ? 'ready' : 'close'} time of ${station.name}`, byS, apply }];
    }),
  );
}

/** Every trip of the robot one second shorter: the whole of travel, as one element. */
function travelChanges(plan: Plan): Change[] {
  const times = [...plan.emptyS, ...plan.loadedS].filter((t) => Number.isFinite(t) && t > 0);
  if (times.length === 0) return [];
  const byS = Math.min(1, ...times);
  return [{ element: 'every trip of the robot', byS, apply: (c) => c }];
}

function indexChange(cell: Cell): Change[] {
  const byS = Math.min(1, cell.robot.indexS);
  if (cell.robot.hands === 1 || byS <= 0) return [];
  return [
    {
      element: 'index time of the gripper',
      byS,
      apply: (c) => ({ ...c, robot: { ...c.robot, indexS: c.robot.indexS - byS } }),
    },
  ];
}

function withChange(cell: Cell, plan: Plan, change: Change): Plan {
  const changed = change.apply(cell);
  const paths = plan.paths.map((path) => ({
    ...path,
    stops: path.stops.map((stop) => ({
      ...stop,
      step: changed.routes[path.route]!.steps.find((s) => s.step === stop.step.step)!,
    })),
  }));
  const next = buildPlan(changed, paths);
  if (change.element !== 'every trip of the robot') return next;
  const shorter = (times: Float64Array): Float64Array => times.map((t) => (t > 0 ? t - change.byS : t));
  return { ...next, emptyS: shorter(plan.emptyS), loadedS: shorter(plan.loadedS) };
}
