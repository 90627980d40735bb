/**
 * The best way to run a cell that can be found, and how sure that is. Every plain rule played without chance is a
 * start, so that no rule is better; small part sets are searched first, each with a share of the work, then promising
 * larger ones; then a robot that looks ahead and small changes of the best sequences; and where the states of the cell
 * are few enough, all sequences whatever. All work is counted, so the same cell gives the same answer everywhere; only a
 * time limit that the user gives goes by the clock.
 */
import type { Cell } from '../../model/cell.js';
import { alternatives, usedCell } from '../bound/used-cell.js';
import { timeOrder } from '../evaluate/evaluate-order.js';
import { type PartPath, waysOf } from '../plan/paths.js';
import { plainOrder } from '../plan/plain-order.js';
import type { Goal } from '../plan/weights.js';
import { CellPlays } from './cell-plays.js';
import { evenSet, type LikelySet, type PartSet, partSets } from './choose-counts.js';
import { knownSet } from './known-orders.js';
import { PERIOD_TOLERANCE_S } from './order/order-prefix.js';
import { searchOrder } from './order/search-order.js';
import { exchangeUnits } from './order/units.js';
import {
  byRate,
  type ImproveEffort,
  type LookEffort,
  type PlayedLimits,
  type PlayedSet,
  setsByActs,
  setsByImproving,
  setsByLookingAhead,
  setsByRule,
} from './played-sets.js';
import {
  mostPerS,
  movesIn,
  ratePerS,
  reaches,
  type SetBest,
  searchFully,
  searchQuickly,
} from './search-set.js';
import { orderInLarger, type SmallerCell, smallerCells } from './smaller-cells.js';

export interface SearchedCell {
  readonly cell: Cell;
  /** Null where there are too many to list; then only what is played is known. */
  readonly ways: readonly PartPath[] | null;
  readonly goal: Goal;
  /** Value per second that no sequence exceeds, where known. */
  readonly valueBound: number | null;
}

export interface CellLimits {
  /** Most visits to stations in a period, of part sets that are searched. */
  readonly maxVisits: number;
  /** The same of sequences that come from a run of the cell or from its states. */
  readonly maxPlayedVisits: number;
  /** Exactly this many parts in a period; null = free. */
  readonly partsPerPeriod: number | null;
  readonly nodes: number;
  /** Nodes of the search that this one gives starts to, where it does: as many states are listed as there. */
  readonly nodesOfWhole?: number;
  /** Moment (Date.now()) after which the search ends; Infinity where no time limit was given. */
  readonly untilMs: number;
}

export interface CellSearch {
  readonly best: SetBest | null;
  /** The sequence with the fewest visits of those that are nearly as good; null where that is the best itself. */
  readonly shorter: SetBest | null;
  /** Value per second that no sequence whatever exceeds; null where no bound is known. */
  readonly mostPerS: number | null;
  /** All its states were listed. */
  readonly isListed: boolean;
  /** A set to explain why there is no order. */
  readonly first: PartSet | null;
  readonly nodes: number;
  /** Every part set within the limits was searched to its end or ruled out by its bound. */
  readonly complete: boolean;
}

/** Nodes for one set that is likely best, by exchanges alone. */
const LIKELY_NODES = 12_000;
/** Share of all nodes for a set when it is first looked at, and when it is looked at again. */
const FIRST_SHARE = 0.01;
const SECOND_SHARE = 0.12;
/** Share of all nodes for the sets of a number of parts that is asked for, before the cell is played. */
const ASKED_SHARE = 0.03;
/** Share of all nodes for first looks together, and for the set of the best order when it is looked at again. */
const LOOK_SHARE = 0.5;
const BEST_SHARE = 0.4;
/** Nodes for a set at least. */
const LEAST_NODES = 200;
/** Of sequences within this share of the best the shortest is offered too. */
const NEARLY = 0.005;
/** Work of the standard search: what these efforts are for. */
const STANDARD_NODES = 400_000;
const LOOKS: readonly (LookEffort & { readonly share: number })[] = [
  { breadth: 10, depth: 1, horizon: 2, actsAPlace: 30, share: 0.05 },
  { breadth: 3, depth: 3, horizon: 0.6, actsAPlace: 40, share: 0.5 },
  { breadth: 3, depth: 3, horizon: 2, actsAPlace: 40, share: 1 },
];
/** Small changes of the best sequences so far; then longer ones of the best that came of them, and again. */
interface ImproveStage extends ImproveEffort {
  /** Sequences that it begins with. */
  readonly starts: number;
}
const IMPROVE_FEW: readonly ImproveStage[] = [
  { starts: 4, acts: 600_000, warm: 0.3, cold: 0.01 },
  { starts: 2, acts: 1_200_000, warm: 0.1, cold: 0.003 },
];
/** From about five independent machines on they find what nothing else does: from many starts, as one alone seldom leads there. */
const MANY_CARRIES = 10;
const IMPROVE_MANY: readonly ImproveStage[] = [
  { starts: 24, acts: 800_000, warm: 0.1, cold: 0.003 },
  { starts: 6, acts: 2_000_000, warm: 0.1, cold: 0.002 },
  { starts: 2, acts: 4_000_000, warm: 0.1, cold: 0.001 },
];
/** States listed at most in a standard search: at once, at the end, and at once for up to three machines with one and two hands. */
const FEW_STATES = 6000;
const STATES = 60_000;
const STATES_OF_FEW = [250_000, 700_000] as const;
const CARRIES_OF_FEW = 6;
/** A smaller search lists so many times more of them than its share, by hands: they settle the most. */
const STATES_EFFORT = [4, 1] as const;

/** Where the best of all sequences is known but long: share of the nodes for shorter ones that are nearly as good. */
const SHORTER_SHARE = 0.05;
/** Share of the nodes for what the rate bound uses of the cell, and for other cells that can do less, each kind together. */
const SMALLER_SHARE = 0.1;

/** Moves in a period up to which a node counts as one: beyond, each takes longer. */
const LONG_CYCLE_MOVES = 60;
const SHORT_CYCLE_MOVES = 12;

/** Beyond the standard search each one has so many times the nodes of the one before. */
const MORE_NODES = 8;
/** Up to so many ways of parts the sets of few visits are searched by themselves first. */
const FEW_WAYS = 4;
const FEW_VISITS = 8;
/** With fewer nodes than this there is one search, of all visits. */
const NODES_OF_TWO = 10_000;

/**
 * Smaller searches are starts of larger ones, so that a larger limit never gives less than those. Above the standard
 * number of nodes each search with fewer is done before; so a limit by time alone goes through all of a search before
 * any part of it is given more.
 */
export function searchCell(
  searched: SearchedCell,
  limits: CellLimits,
  known: readonly SetBest[],
): CellSearch {
  const plays = new CellPlays(searched.cell, searched.goal);
  let starts = known;
  let before = 0;
  for (let nodes = STANDARD_NODES; ; nodes *= MORE_NODES) {
    for (const sized of bySize(searched, { ...limits, nodes: Math.min(nodes, limits.nodes) })) {
      const isWhole = sized.maxPlayedVisits === limits.maxPlayedVisits;
      const search = new CellSearcher(
        searched,
        sized,
        plays,
        starts,
        isWhole,
        known.length > 0,
        limits.nodes,
      );
      const run = search.run();
      before += run.nodes;
      starts = search.results();
      const isSpent = Math.max(nodes, before) >= limits.nodes;
      const isDone = run.isSure || (isWhole && (run.complete || isSpent));
      const isLate = Date.now() > limits.untilMs && starts.length > 0;
      if (isDone || isLate) return { ...run, complete: run.complete && isDone, nodes: before };
    }
  }
}

function bySize({ ways }: SearchedCell, limits: CellLimits): readonly CellLimits[] {
  const isFew = ways !== null && ways.length > 1 && ways.length <= FEW_WAYS;
  if (
    !isFew ||
    limits.nodes < NODES_OF_TWO ||
    limits.nodesOfWhole !== undefined ||
    limits.maxVisits <= FEW_VISITS
  )
    return [limits];
  return [{ ...limits, maxVisits: FEW_VISITS, maxPlayedVisits: FEW_VISITS }, limits];
}

class CellSearcher {
  private readonly found: SetBest[];
  private played: PlayedSet[] = [];
  private nodes = 0;
  private bound: number | null;
  private first: PartSet | null = null;
  /** What sets that were not searched to their end may still yield; by their parts, however often a set was built. */
  private readonly open = new Map<string, { set: PartSet; best: SetBest | null; mostPerS: number }>();
  /** The same of sets that were not listed: unknown until they are. */
  private leftOutPerS = Number.POSITIVE_INFINITY;

  constructor(
    private readonly searched: SearchedCell,
    private limits: CellLimits,
    private readonly plays: CellPlays,
    known: readonly SetBest[],
    private readonly isWhole: boolean,
    /** Orders of like cells were given: those say more than cells that can do less. */
    private readonly isStarted: boolean,
    /** Nodes of all searches together. */
    private readonly mostNodes: number,
  ) {
    this.found = [...known];
    this.bound = searched.valueBound;
  }

  results(): readonly SetBest[] {
    return this.found;
  }

  run(): CellSearch & { readonly isSure: boolean } {
    if (this.plays.states.known() !== null) this.useStates();
    const steps = [
      () => this.tryEven(),
      // Of a number of parts that is asked for a run of the cell seldom holds a sequence, and their sets are few.
      ...(this.isAsked() ? [() => this.searchSets(), () => this.searchAgain(ASKED_SHARE)] : []),
      () => this.playRules(),
      () => this.listStates(this.isOfFew() ? STATES_OF_FEW[this.plays.space.plan.hands - 1]! : FEW_STATES),
      ...(this.isAsked() ? [] : [() => this.searchSets()]),
      // Sets of few visits are mostly searched to their end at once; then no other sequence of so few can be better.
      ...(this.limits.maxPlayedVisits <= FEW_VISITS ? [() => this.searchAgain()] : []),
      () => this.trySmaller(),
      () => this.lookAhead(),
      () => this.searchAgain(),
      () => this.listStates(STATES),
    ];
    for (const step of steps) {
      if (this.isSettled() || Date.now() > this.limits.untilMs) break;
      step();
    }
    // However short the time: what one plain rule makes.
    if (this.found.length === 0) this.playRules();
    const best = bestOf(this.found);
    return {
      best: best === null ? null : this.settled(best),
      shorter: best === null ? null : this.shorterThan(best),
      mostPerS: this.bound,
      isListed: this.plays.states.known() !== null,
      first: this.first ?? best?.set ?? null,
      nodes: this.nodes,
      isSure: this.isSure(),
      complete: this.isComplete() || this.isSure(),
    };
  }

  /**
   * Nothing within the limits can yield more: also no sequence played, where those may have no more visits, or only the
   * parts of the sets that were searched.
   */
  private isSettled(): boolean {
    const areAllListed = this.limits.maxPlayedVisits <= FEW_VISITS || this.isAsked();
    return this.isSure() || (areAllListed && this.found.length > 0 && this.isComplete());
  }

  private isAsked(): boolean {
    return this.limits.partsPerPeriod !== null;
  }

  /** Every part set within the limits was searched to its end, or cannot yield more. */
  private isComplete(): boolean {
    const all = [...this.open.values()].every((open) => this.isRuledOut(open.mostPerS));
    return all && this.isRuledOut(this.leftOutPerS);
  }

  /** Few machines: states are listed up to a higher number, and at once, so that with one hand two and three machines always are. */
  private isOfFew(): boolean {
    return this.plays.space.carries.length <= CARRIES_OF_FEW;
  }

  private mostPerS(): number {
    return ratePerS(bestOf(this.found));
  }

  /** What is found yields as much as anything can. */
  private isSure(): boolean {
    return this.found.length > 0 && this.bound !== null && reaches(this.mostPerS(), this.bound);
  }

  private isRuledOut(perS: number): boolean {
    const most = this.mostPerS();
    return most > 0 ? perS <= most * (1 + 1e-9) : perS <= 0;
  }

  /** Where machines are alike, every way once is mostly best. */
  private tryEven(): void {
    const { cell, ways, goal } = this.searched;
    if (ways === null) return;
    const set = evenSet(cell, ways, goal, this.limits);
    if (set === null) return;
    this.first = set;
    this.leaveOpen(set, null, set.value / set.boundS);
    const nodes = Math.ceil(Math.min(LIKELY_NODES, this.limits.nodes) / nodeWorth(set));
    const belowS = this.below(set);
    const run = searchOrder(set.plan, { belowS, nodes, untilMs: this.limits.untilMs }, true);
    this.nodes += run.nodes;
    if (run.best === null) return;
    const proven = run.best.periodS <= set.boundS + PERIOD_TOLERANCE_S;
    const best = {
      set,
      order: run.best,
      boundS: Math.min(set.boundS, run.best.periodS),
      proven,
      bestExchange: run.complete,
    };
    this.found.push(best);
    this.leaveOpen(set, best, mostPerS(best));
  }

  private playRules(): void {
    this.played.push(...setsByRule(this.plays, this.playLimits()));
    this.found.push(...this.played);
    if (this.found.length === 0) this.usePlain();
  }

  /** A long line takes long to settle under any rule: each part's moves from the last to the first can always be repeated. */
  private usePlain(): void {
    const { cell, ways, goal } = this.searched;
    const set = this.first ?? (ways && evenSet(cell, ways, goal, this.limits));
    if (set === null) return;
    this.first = set;
    const order = timeOrder(set.plan, plainOrder(set.plan));
    if (order === null) return;
    const boundS = Math.min(set.boundS, order.periodS);
    this.found.push({ set, order, boundS, proven: false, bestExchange: false });
  }

  private playLimits(): PlayedLimits {
    return { ...this.limits, maxVisits: this.limits.maxPlayedVisits };
  }

  private searchSets(): void {
    const { cell, ways, goal } = this.searched;
    if (ways === null) return;
    const { small, likely, leftOutPerS } = partSets(cell, ways, goal, this.limits);
    this.leftOutPerS = leftOutPerS;
    const [only, more] = [...small, ...likely];
    if (only !== undefined && more === undefined) {
      const set = only.set();
      this.first ??= set;
      this.leaveOpen(set, null, set.value / set.boundS);
      return;
    }
    const share = Math.max(LEAST_NODES, Math.round(this.limits.nodes * FIRST_SHARE));
    for (const list of [small, likely]) for (const one of list) this.lookAt(one, share);
  }

  private lookAt({ mostPerS: most, set: build }: LikelySet, nodes: number): void {
    if (this.isSure() || this.isRuledOut(most)) return;
    const set = build();
    this.first ??= set;
    if (this.isRuledOut(set.value / set.boundS)) return;
    if (this.nodes >= this.limits.nodes * LOOK_SHARE || Date.now() > this.limits.untilMs) {
      this.leaveOpen(set, null, set.value / set.boundS);
      return;
    }
    const worth = nodeWorth(set);
    const limits = { belowS: this.below(set), nodes: Math.ceil(nodes / worth), untilMs: this.limits.untilMs };
    const run = searchQuickly(set, limits);
    this.nodes += run.nodes * worth;
    if (run.best !== null) this.found.push(run.best);
    if (run.complete) this.open.delete(countsOf(set));
    else this.leaveOpen(set, run.best, set.value / Math.max(set.boundS, run.boundS));
  }

  private leaveOpen(set: PartSet, best: SetBest | null, mostPerS: number): void {
    this.open.set(countsOf(set), { set, best, mostPerS });
  }

  /** Periods of a set that would be better than what is found, or as good. */
  private below(set: PartSet): number {
    const most = this.mostPerS();
    return most > 0 ? (set.value / most) * (1 + 1e-9) + 2 * PERIOD_TOLERANCE_S : Number.POSITIVE_INFINITY;
  }

  /** Cells that can do less: what they make this one makes too, and their states may be few enough. */
  private trySmaller(): void {
    if (!this.isWhole || this.limits.nodesOfWhole !== undefined) return;
    const { cell, goal } = this.searched;
    const used = usedCell(cell, goal, this.limits.untilMs);
    if (used !== null) this.trySmallerCell({ ...used, keepsBound: true }, SMALLER_SHARE, this.limits.nodes);
    if (this.isStarted) return;
    // The more alternatives, the more states.
    const smaller = smallerCells(cell).sort((a, b) => alternatives(a.cell) - alternatives(b.cell));
    let mostListed = Number.POSITIVE_INFINITY;
    for (const less of smaller) {
      // Where one has too many states, those with as many have too.
      const nodesOfWhole = alternatives(less.cell) < mostListed ? this.limits.nodes : 0;
      const isListed = this.trySmallerCell({ ...less, goal }, SMALLER_SHARE / smaller.length, nodesOfWhole);
      if (!isListed) mostListed = Math.min(mostListed, alternatives(less.cell));
    }
  }

  /** @returns whether all its states were listed */
  private trySmallerCell(
    { cell: less, goal, keepsBound }: SmallerCell & { readonly goal: Goal },
    share: number,
    nodesOfWhole: number,
  ): boolean {
    if (this.isSure() || Date.now() > this.limits.untilMs) return false;
    const { cell, goal: own } = this.searched;
    const nodes = Math.ceil(share * this.limits.nodes);
    const limits = { ...this.limits, nodes, nodesOfWhole: Math.max(nodes, nodesOfWhole) };
    const searched = { cell: less, ways: waysOf(less), goal, valueBound: keepsBound ? this.bound : null };
    const { best, isListed } = searchCell(searched, limits, []);
    const set = best && knownSet(cell, orderInLarger(cell, best.set.plan, best.order.order), own);
    if (set !== null) this.found.push(set);
    return isListed;
  }

  private lookAhead(): void {
    for (const { share, ...effort } of LOOKS) {
      if (this.isSure() || share > this.effort()) continue;
      const sets = setsByLookingAhead(this.plays, this.playLimits(), effort);
      this.played.push(...sets);
      this.found.push(...sets);
    }
    const stages = this.plays.space.carries.length < MANY_CARRIES ? IMPROVE_FEW : IMPROVE_MANY;
    let starts = this.played;
    for (const stage of stages) starts = this.improve(byRate(starts).slice(0, stage.starts), stage);
  }

  /** @returns the best that came of each start */
  private improve(starts: readonly PlayedSet[], effort: ImproveEffort): PlayedSet[] {
    const work = {
      ...effort,
      acts: effort.acts * Math.min(1, this.effort()),
      enoughPerS: this.bound ?? Number.POSITIVE_INFINITY,
    };
    return starts.flatMap((start, run) => {
      if (this.isSure()) return [];
      const sets = setsByImproving(this.plays, this.playLimits(), start, { ...work, run });
      this.found.push(...sets);
      return byRate(sets).slice(0, 1);
    });
  }

  /** Work against that of the standard search. */
  private effort(): number {
    return this.limits.nodes / STANDARD_NODES;
  }

  /**
   * The sets that may still yield more, the most promising first, among all their orders.
   *
   * @param mostShare of the nodes that may have been used in the end
   */
  private searchAgain(mostShare = 1): void {
    const isLast = mostShare === 1;
    const mostNodes = mostShare * this.limits.nodes;
    const best = bestOf(this.found);
    if (best !== null && !best.proven && !this.open.has(countsOf(best.set)))
      this.leaveOpen(best.set, best, mostPerS(best));
    const share = Math.max(LEAST_NODES, Math.round(this.limits.nodes * SECOND_SHARE));
    const sets = [...this.open.entries()].sort(
      (a, b) => ratePerS(b[1].best) - ratePerS(a[1].best) || b[1].mostPerS - a[1].mostPerS,
    );
    for (const [k, [counts, { set, mostPerS: most }]] of sets.entries()) {
      if (this.isSure()) break;
      const top = bestOf(this.found);
      if ((top === null || counts !== countsOf(top.set)) && this.isRuledOut(most)) {
        this.open.delete(counts);
        continue;
      }
      if (this.nodes >= mostNodes || Date.now() > this.limits.untilMs) break;
      // A set that is alone has all the work that is left, however long its nodes take; where no other is asked for, of all searches.
      const alone = this.open.size === 1;
      const isOnly = alone && isLast && this.isAsked() && this.leftOutPerS === 0;
      const worth = alone && movesIn(set.plan) <= LONG_CYCLE_MOVES ? 1 : nodeWorth(set);
      const wanted = alone
        ? (isOnly ? this.mostNodes : mostNodes) - this.nodes
        : k === 0
          ? BEST_SHARE * this.limits.nodes
          : share;
      const nodes = Math.ceil(wanted / worth);
      const limits = { belowS: this.below(set), nodes, untilMs: this.limits.untilMs };
      // An order is one of the set that it was found in: the same parts may be laid out otherwise in another.
      const start = this.bestOfSame(set);
      const run = searchFully(start?.set ?? set, start, limits);
      this.nodes += run.nodes * worth;
      if (run.best !== null) this.found.push(run.best);
      if (run.complete) this.open.delete(counts);
      else this.leaveOpen(set, run.best, set.value / run.boundS);
    }
  }

  /** The best order known of the same parts, also of an earlier search: only better ones are of interest. */
  private bestOfSame(set: PartSet): SetBest | null {
    return bestOf(this.found.filter((one) => sameCounts(one.set, set)));
  }

  /** Every state of the cell, where they are few enough. */
  private listStates(most: number): void {
    if (this.plays.states.known() !== null) return;
    const effort = (this.limits.nodesOfWhole ?? this.limits.nodes) / STANDARD_NODES;
    const more = STATES_EFFORT[this.plays.space.plan.hands - 1]!;
    const states = Math.round(most * Math.min(1, more * effort));
    if (this.plays.states.most({ states, untilMs: this.limits.untilMs }) !== null) this.useStates();
  }

  /** With a mix the states weigh its parts alike, in whatever numbers they come: a bound on its sets. */
  private useStates(): void {
    const every = this.plays.states.known()!;
    this.bound = Math.min(this.bound ?? Number.POSITIVE_INFINITY, every.valuePerS);
    const visits = this.plays.visitsOf(every.events);
    // One of tens of thousands of visits would take long to time, and nobody could program it.
    const isShort = visits <= this.limits.maxPlayedVisits;
    const set = isShort ? this.plays.setOf(every.events) : null;
    const { partsPerPeriod } = this.limits;
    const parts =
      set === null ? 0 : Object.values(set.set.plan.partsPerPeriod).reduce((sum, n) => sum + n, 0);
    if (isShort && (set === null || (partsPerPeriod !== null && parts !== partsPerPeriod))) return;
    if (set !== null) this.found.push(set);
    else if (!this.isWhole) this.limits = { ...this.limits, nodes: SHORTER_SHARE * this.limits.nodes };
    // A long one is hard to program: parts of its run may repeat and be nearly as good.
    const shorter = { ...this.playLimits(), maxVisits: Math.min(this.playLimits().maxVisits, visits) };
    if (visits > FEW_VISITS && this.limits.nodesOfWhole === undefined)
      this.found.push(...setsByActs(this.plays, shorter, every.acts));
  }

  /** The best order with the bounds that are known of its set. */
  private settled(best: SetBest): SetBest {
    const same = this.found.filter((one) => sameCounts(one.set, best.set));
    const proven = same.some(
      (one) => one.proven && one.order.periodS >= best.order.periodS - PERIOD_TOLERANCE_S,
    );
    const every = this.bound === null ? 0 : best.set.value / this.bound;
    const boundS = Math.max(best.boundS, every, ...same.map((one) => one.boundS));
    return {
      ...best,
      proven: proven || this.isSure(),
      boundS: proven ? best.order.periodS : Math.min(boundS, best.order.periodS),
      bestExchange:
        best.bestExchange ||
        same.some((one) => one.bestExchange && one.order.periodS >= best.order.periodS - PERIOD_TOLERANCE_S),
    };
  }

  private shorterThan(best: SetBest): SetBest | null {
    const most = ratePerS(best);
    return this.found
      .filter(
        (one) =>
          ratePerS(one) >= most * (1 - NEARLY) &&
          one.set.visits < best.set.visits &&
          makesEach(one.set, best.set),
      )
      .reduce<SetBest | null>(
        (top, one) =>
          top === null ||
          one.set.visits < top.set.visits ||
          (one.set.visits === top.set.visits && ratePerS(one) > ratePerS(top))
            ? one
            : top,
        null,
      );
  }
}

/**
 * What a node of this set is charged against one of a short cycle. It takes longer: an order built move by move is timed anew
 * in each. And of a cycle of more moves it settles less: independent machines have found its order by small changes before.
 */
function nodeWorth({ plan }: PartSet): number {
  const moves = movesIn(plan);
  if (exchangeUnits(plan) !== null) return Math.max(1, (moves / LONG_CYCLE_MOVES) ** 4);
  return Math.max(1, (moves / SHORT_CYCLE_MOVES) ** 2);
}

/** Of orders equally good the one with the fewest visits, and of those a proven one. */
function bestOf(list: readonly SetBest[]): SetBest | null {
  return list.reduce<SetBest | null>((best, one) => {
    if (best === null) return one;
    const share = ratePerS(one) / ratePerS(best) - 1;
    if (Math.abs(share) > 1e-9) return share > 0 ? one : best;
    const shorter = one.set.visits - best.set.visits || Number(best.proven) - Number(one.proven);
    return shorter < 0 ? one : best;
  }, null);
}

/** Whether a set makes every part that another one makes. */
function makesEach({ plan }: PartSet, other: PartSet): boolean {
  return Object.entries(other.plan.partsPerPeriod).every(
    ([part, count]) => count === 0 || plan.partsPerPeriod[part]! > 0,
  );
}

function sameCounts(a: PartSet, b: PartSet): boolean {
  return a === b || countsOf(a) === countsOf(b);
}

const countsBySet = new WeakMap<PartSet, string>();

/** What tells part sets apart: their parts, and the stations these visit. */
function countsOf(set: PartSet): string {
  const known = countsBySet.get(set);
  if (known !== undefined) return known;
  const { carries, events } = set.plan;
  const counts = carries
    .map((c) => {
      const stops = c.events.map((e) => `${events[e]!.part} ${events[e]!.step} ${events[e]!.station}`);
      return `${stops.join('|')}x${c.count}`;
    })
    .sort()
    .join(';');
  countsBySet.set(set, counts);
  return counts;
}
