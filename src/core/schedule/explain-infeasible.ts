/** Why a cell has no schedule: the longest waits that contradict the handling, as the shortest chain found, or a lock. */
import { chainLinks, secondsText } from './describe.js';
import { evaluateOrder, type ImpossibleOrder, type OrderArc } from './evaluate-order.js';
import type { Plan } from './plan.js';
import type { ChainLink, ScheduleInfeasible } from './result.js';
import { searchOrder } from './search-order.js';

const TRIES = 4000;

/** @param plan a plan for which the search found no order at all */
export function explainInfeasible(plan: Plan): Omit<ScheduleInfeasible, 'searched'> {
  const free = searchOrder(withoutWaits(plan), {
    belowS: Number.POSITIVE_INFINITY,
    nodes: 20_000,
    untilMs: Date.now() + 2000,
  });
  if (free.best === null && free.complete) {
    return {
      status: 'infeasible',
      reason:
        'The cell locks up: with the capacities given there is no order in which every part can move on. ' +
        'Every place that a part must go to is taken by a part that waits for another. A second hand, a buffer or more capacity would open it.',
      chain: [],
    };
  }
  const worst = shortestContradiction(plan, free.best?.order ?? null);
  if (worst === null) {
    return {
      status: 'infeasible',
      reason: `No order keeps every longest wait: ${waitList(plan)}. Allow longer waits, or shorten the robot's handling and travel.`,
      chain: [],
    };
  }
  return { status: 'infeasible', reason: reasonText(worst.chain, plan), chain: worst.chain };
}

function withoutWaits(plan: Plan): Plan {
  return { ...plan, nodes: plan.nodes.map((node) => ({ ...node, maxWaitS: null })) };
}

/** The shortest contradicting chain over single waits first, then over exchanges of the best order without waits. */
function shortestContradiction(plan: Plan, order: readonly number[] | null): { chain: ChainLink[] } | null {
  if (order === null) return null;
  let best: ChainLink[] | null = null;
  for (const candidate of neighbours(order, plan)) {
    const result = evaluateOrder(plan, candidate);
    if (result.feasible) continue;
    const chain = chainOf(plan, candidate, result);
    if (chain.length > 0 && (best === null || chain.length < best.length)) best = chain;
  }
  return best === null ? null : { chain: best };
}

function* neighbours(order: readonly number[], plan: Plan): Generator<readonly number[]> {
  yield order;
  const units = unitsIn(order, plan);
  let tries = 0;
  for (let a = 1; a < units.length; a++)
    for (let b = a + 1; b < units.length; b++) {
      if (++tries > TRIES) return;
      const swapped = [...units];
      [swapped[a], swapped[b]] = [swapped[b]!, swapped[a]!];
      yield swapped.flat();
    }
}

function unitsIn(order: readonly number[], plan: Plan): number[][] {
  if (plan.hands === 2) return order.map((kind) => [kind]);
  const units: number[][] = [];
  for (const kind of order) {
    if (plan.events[kind]!.action === 'pick') units.push([kind]);
    else units[units.length - 1]!.push(kind);
  }
  return units;
}

function chainOf(plan: Plan, order: readonly number[], result: ImpossibleOrder): ChainLink[] {
  const arcs: OrderArc[] = result.contradiction.flat().map((a) => result.arcs[a]!);
  return arcs.flatMap((arc) => chainLinks(plan, { order }, arc)).filter((link) => Math.abs(link.S) > 1e-9);
}

function reasonText(chain: readonly ChainLink[], plan: Plan): string {
  const waits = chain.filter((link) => link.what.startsWith('longest stay'));
  const rest = chain.filter((link) => !link.what.startsWith('longest stay'));
  const need = rest.reduce((sum, link) => sum + link.S, 0);
  const allowed = waits.reduce((sum, link) => sum - link.S, 0);
  if (waits.length === 0) return `No order keeps every longest wait: ${waitList(plan)}.`;
  const names = waits.map(
    (link) => `${link.what.replace('longest stay of ', '')} (${secondsText(-link.S)} with its process)`,
  );
  return (
    `No order keeps every longest wait. In the closest order found, the chain below needs ${secondsText(need)} where ` +
    `${secondsText(allowed)} are allowed: ${[...new Set(names)].join(', ')}. ${advice}`
  );
}

const advice = "Allow a longer wait there, or shorten the robot's handling and travel in the chain.";

function waitList(plan: Plan): string {
  const waits = plan.nodes.filter((node) => node.maxWaitS !== null);
  return waits
    .map((node) => `${node.part} at ${node.station} at most ${secondsText(node.maxWaitS!)}`)
    .join(', ');
}
