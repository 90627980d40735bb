/**
 * Why a cell has no schedule. Either it locks up even without longest waits, or some longest waits contradict each
 * other and the robot's handling: then the smallest contradicting set of waits is found by leaving out one after
 * another, how long each of them would have to be is searched, and the shortest contradicting chain is told.
 */

import {
  type EvaluatedOrder,
  evaluateOrder,
  foundOrder,
  type ImpossibleOrder,
} from '../evaluate/evaluate-order.js';
import type { Plan } from '../plan/plan.js';
import type { ChainLink, ScheduleInfeasible } from '../result.js';
import { searchOrder } from '../search/order/search-order.js';
import { chainLinks, plainSecondsText } from './describe.js';

/** Nodes for each question asked of the search, and for all of them: with the last, what is left is not known. */
const NODES_EACH = 20_000;
const NODES_IN_ALL = 1_000_000;
const BISECTIONS = 12;

const LOCKED =
  'The cell locks up: with the capacities given there is no order in which every part can move on, because every place ' +
  'that a part must go to is taken by a part that waits for another. A dual gripper, a buffer or more capacity would open it.';

/**
 * @param plan a plan for which the search found no order at all
 * @param untilMs moment (Date.now()) after which nothing more is asked, where the user gave a time limit
 */
export function explainInfeasible(
  plan: Plan,
  untilMs = Number.POSITIVE_INFINITY,
): Omit<ScheduleInfeasible, 'searched'> {
  const ask = questions(plan, untilMs);
  const waiting = plan.nodes.flatMap((node, index) => (node.maxWaitS === null ? [] : [index]));
  if (ask([]).status === 'none') return { status: 'infeasible', reason: LOCKED, chain: [] };
  const { core, sure } = smallestContradiction(waiting, ask);
  const chain = shortestChain(plan, core, ask);
  return {
    status: 'infeasible',
    reason: reasonText(plan, core, sure, chain, ask),
    chain: chain?.links ?? [],
  };
}

type Answer =
  | { readonly status: 'order'; readonly order: EvaluatedOrder }
  | { readonly status: 'none' | 'not known' };

/** Is there an order that keeps only these longest waits (with other limits in place of the given ones)? */
type Question = (keep: readonly number[], limits?: ReadonlyMap<number, number>) => Answer;

function questions(plan: Plan, untilMs: number): Question {
  let nodesLeft = NODES_IN_ALL;
  return (keep, limits) => {
    if (nodesLeft <= 0) return { status: 'not known' };
    const asked = withWaits(plan, keep, limits);
    const run = searchOrder(asked, {
      belowS: Number.POSITIVE_INFINITY,
      nodes: Math.min(NODES_EACH, nodesLeft),
      untilMs,
      anyOrder: true,
    });
    nodesLeft -= run.nodes;
    if (run.best !== null) return { status: 'order', order: foundOrder(asked, run.best) };
    return { status: run.complete ? 'none' : 'not known' };
  };
}

function withWaits(plan: Plan, keep: readonly number[], limits?: ReadonlyMap<number, number>): Plan {
  const nodes = plan.nodes.map((node, index) => ({
    ...node,
    maxWaitS: keep.includes(index) ? (limits?.get(index) ?? node.maxWaitS) : null,
  }));
  return { ...plan, nodes };
}

/** Leaves out one wait after another while the rest still contradict each other. */
function smallestContradiction(waiting: readonly number[], ask: Question): { core: number[]; sure: boolean } {
  let core = [...waiting];
  let sure = true;
  for (const node of waiting) {
    const rest = core.filter((other) => other !== node);
    const answer = ask(rest);
    if (answer.status === 'none') core = rest;
    else if (answer.status === 'not known') sure = false;
  }
  return { core, sure };
}

interface Contradiction {
  readonly links: readonly ChainLink[];
  readonly text: string;
}

/** With one wait of the core left out there is an order; what that order breaks of the wait left out is a chain. */
function shortestChain(plan: Plan, core: readonly number[], ask: Question): Contradiction | null {
  let best: Contradiction | null = null;
  for (const node of core) {
    const answer = ask(core.filter((other) => other !== node));
    if (answer.status !== 'order') continue;
    const result = evaluateOrder(withWaits(plan, core), answer.order.order);
    if (result.feasible) continue;
    const chain = contradictionOf(plan, answer.order.order, result);
    if (chain !== null && (best === null || chain.links.length < best.links.length)) best = chain;
  }
  return best;
}

function contradictionOf(
  plan: Plan,
  order: readonly number[],
  result: ImpossibleOrder,
): Contradiction | null {
  const circuits = result.contradiction.map((circuit) => {
    const arcs = circuit.map((a) => result.arcs[a]!);
    const links = arcs
      .flatMap((arc) => chainLinks(plan, { order }, arc))
      .filter((link) => Math.abs(link.S) > 1e-9);
    return {
      links,
      sumS: arcs.reduce((s, arc) => s + arc.weightS, 0),
      periods: arcs.reduce((s, arc) => s + arc.periods, 0),
    };
  });
  const links = circuits.flatMap((circuit) => circuit.links);
  if (links.length === 0) return null;
  const upper = circuits.find((c) => c.periods < 0);
  const lower = circuits.find((c) => c.periods > 0);
  if (upper && lower) {
    const leastS = plainSecondsText(lower.sumS / lower.periods);
    const mostS = plainSecondsText(Math.max(0, upper.sumS / upper.periods));
    return {
      links,
      text: `the maximum waits ask for a robot cycle of at most ${mostS}, and the rest needs at least ${leastS}`,
    };
  }
  const needS = links.reduce((sum, link) => sum + Math.max(0, link.S), 0);
  const allowedS = links.reduce((sum, link) => sum - Math.min(0, link.S), 0);
  return {
    links,
    text: `the chain below needs ${plainSecondsText(needS)} where the maximum waits allow ${plainSecondsText(allowedS)}`,
  };
}

function reasonText(
  plan: Plan,
  core: readonly number[],
  sure: boolean,
  chain: Contradiction | null,
  ask: Question,
): string {
  const names = core.map((index) => {
    const node = plan.nodes[index]!;
    return `for ${node.part} at ${node.station} (${plainSecondsText(node.maxWaitS!)})`;
  });
  const first =
    core.length === 1
      ? `No sequence meets the maximum wait ${names[0]}.`
      : `No sequence meets these maximum waits together: ${names.join('; ')}.`;
  const minimal = sure && core.length > 1 ? ' Without any one of them there would be a sequence.' : '';
  const closest = chain === null ? '' : ` In the closest sequence found ${chain.text}.`;
  const mends = core.flatMap((node) => mendText(plan, core, node, ask));
  const mend =
    mends.length > 0
      ? ` Any one of these fixes it: ${mends.join('; ')}; or shorten the robot's handling and travel in the chain.`
      : " Allow longer waits, or shorten the robot's handling and travel in the chain.";
  return first + minimal + closest + mend;
}

/** The shortest wait at one node, to a tenth of a second, with which the others can be kept. */
function mendText(plan: Plan, core: readonly number[], node: number, ask: Question): string[] {
  const others = core.filter((other) => other !== node);
  const free = ask(others);
  if (free.status !== 'order') return [];
  let low = plan.nodes[node]!.maxWaitS!;
  let high = longestWaitIn(plan, free.order, node);
  for (let i = 0; i < BISECTIONS && high - low > 0.05; i++) {
    const middle = (low + high) / 2;
    const answer = ask(core, new Map([[node, middle]]));
    if (answer.status === 'order')
      high = Math.min(middle, Math.max(low, longestWaitIn(plan, answer.order, node)));
    else if (answer.status === 'none') low = middle;
    else return [];
  }
  const enoughS = Math.ceil(high * 10 - 1e-6) / 10;
  return [
    `a wait of ${plainSecondsText(enoughS)} for ${plan.nodes[node]!.part} at ${plan.nodes[node]!.station}`,
  ];
}

/** The longest time that a part really waits at a node in an order. */
function longestWaitIn(plan: Plan, found: EvaluatedOrder, node: number): number {
  let most = 0;
  for (const link of found.links) {
    if (link.node !== node || !link.lastOfBatch) continue;
    const place = plan.events[found.order[link.place]!]!;
    const finishS = found.startS[link.place]! + place.robotS + plan.nodes[node]!.processS;
    most = Math.max(most, found.startS[link.pick]! + link.lag * found.periodS - finishS);
  }
  return most;
}
