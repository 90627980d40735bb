// The least period of a small general cell by listing: every start state of the cell (parts at stations, parts in
// hand), every repeating order from it, and the least period of each by separate means. Shares no code with
// src/core/schedule. The rules are those of the model: robot, process, clearing, hands, held steps, batches, feeders.
import type { Cell, Station, Step } from '../../src/core/model/cell.js';
import { playedPeriod } from './played-period.js';
import { windowedPeriod } from './windowed-period.js';

/** Parts per period that go one way: a station for each step of the route, null where the step is left out. */
export interface PartWay {
  readonly route: number;
  readonly stations: readonly (string | null)[];
  readonly count: number;
}

/** A step of a route at one station. Infeeds and outfeeds have `endless` room. */
export interface Shelf {
  readonly station: string;
  readonly endless: 'infeed' | 'outfeed' | null;
  readonly processS: number;
  readonly maxWaitS: number | null;
  readonly batch: number;
}

/** One robot action of a kind; the part moves from one shelf to another through the hand. */
export interface Act {
  readonly kind: 'pick' | 'hold' | 'place';
  readonly station: string;
  readonly robotS: number;
  readonly from: number;
  readonly to: number;
}

export interface Shop {
  readonly shelves: readonly Shelf[];
  readonly acts: readonly Act[];
  readonly counts: readonly number[];
  /** Robot time from the end of one action to the next, by action and parts in hand (0 or more). */
  readonly wayS: (from: number, to: number, inHand: number) => number;
}

/** Parts that lie on each shelf when the period starts, and how many of them belong to a batch not yet full. */
export interface ShelfStart {
  readonly inside: readonly number[];
  readonly open: readonly number[];
}

export interface Listed {
  /** Null where no order can be repeated. */
  readonly periodS: number | null;
  readonly orders: number;
}

/** Means of finding the least period of one order: null where it cannot be repeated, or none below `belowS`. */
export type PeriodOf = (
  shop: Shop,
  order: readonly number[],
  start: ShelfStart,
  inHand: readonly number[],
  belowS: number,
) => number | null;

/** The best of all repeating orders of the given parts. */
export function listedPeriod(cell: Cell, ways: readonly PartWay[], means?: PeriodOf): Listed {
  const shop = shopOf(cell, ways);
  const windows = shop.shelves.some((s) => s.maxWaitS !== null);
  const periodOf = means ?? (windows ? windowedPeriod : playedPeriod);
  const search = new Listing(cell, shop, periodOf);
  search.all();
  return { periodS: Number.isFinite(search.bestS) ? search.bestS : null, orders: search.orders };
}

export function shopOf(cell: Cell, ways: readonly PartWay[]): Shop {
  const shelves: Shelf[] = [];
  const shelfAt = new Map<string, number>();
  const acts: Act[] = [];
  const counts: number[] = [];
  const tripAt = new Map<string, number>();
  const station = (name: string): Station => cell.stations.find((s) => s.name === name)!;
  const shelfFor = (route: number, step: Step, name: string): number => {
    const key = `${route}/${step.step}/${name}`;
    const known = shelfAt.get(key);
    if (known !== undefined) return known;
    const { kind, closeS, readyS } = station(name);
    shelfAt.set(key, shelves.length);
    return (
      shelves.push({
        station: name,
        endless: kind === 'infeed' || kind === 'outfeed' ? kind : null,
        processS: closeS + step.cycleS + readyS,
        maxWaitS: step.maxWaitS,
        batch: step.partsPerCycle,
      }) - 1
    );
  };
  const addTrip = (route: number, stops: readonly { step: Step; name: string }[], count: number): void => {
    const key = `${route}:${stops.map((s) => `${s.step.step}/${s.name}`).join('>')}`;
    const known = tripAt.get(key);
    if (known !== undefined) {
      for (let a = known; a < known + stops.length; a++) counts[a] += count;
      return;
    }
    tripAt.set(key, acts.length);
    const from = shelfFor(route, stops[0].step, stops[0].name);
    const to = shelfFor(route, stops[stops.length - 1].step, stops[stops.length - 1].name);
    for (const [i, { step, name }] of stops.entries()) {
      const kind = i === 0 ? 'pick' : i === stops.length - 1 ? 'place' : 'hold';
      const robotS = { pick: step.unloadS, place: step.loadS, hold: step.loadS + step.cycleS + step.unloadS };
      acts.push({ kind, station: name, robotS: robotS[kind], from, to });
      counts.push(count);
    }
  };
  for (const way of ways) {
    let trip: { step: Step; name: string }[] = [];
    for (const [i, step] of cell.routes[way.route].steps.entries()) {
      const name = way.stations[i];
      if (name === null) continue;
      trip.push({ step, name });
      if (trip.length === 1 || station(name).kind === 'held') continue;
      addTrip(way.route, trip, way.count);
      trip = [{ step, name }];
    }
  }
  return { shelves, acts, counts, wayS: wayTable(cell, acts) };
}

/** From the travel table alone, which must name every pair in both directions. */
function wayTable(cell: Cell, acts: readonly Act[]): Shop['wayS'] {
  const rows = new Map(cell.travel.map((row) => [`${row.from}>${row.to}`, row]));
  const turnS = cell.robot.hands === 2 ? cell.robot.indexS : 0;
  const table = acts.map((a) =>
    acts.map((b) => {
      if (a.station === b.station) return [turnS, turnS];
      const row = rows.get(`${a.station}>${b.station}`);
      if (row === undefined) throw new Error(`the test's cell lacks ${a.station} to ${b.station}`);
      return [row.emptyS, row.loadedS];
    }),
  );
  return (from, to, inHand) => table[from][to][inHand > 0 ? 1 : 0];
}

/** Depth-first listing from every start state; the first action is always the first kind. */
class Listing {
  bestS = Number.POSITIVE_INFINITY;
  orders = 0;
  private readonly roomOf: readonly number[];
  private readonly capacity: readonly number[];
  private readonly inside: number[];
  private readonly open: number[];
  private readonly inRoom: number[];
  /** Parts in hand by the action that they go through next. */
  private readonly hand: number[];
  private held = 0;
  private readonly left: number[];
  private readonly order: number[] = [];
  private readonly inHand: number[] = [];
  private start: ShelfStart & { readonly hand: readonly number[] } = { inside: [], open: [], hand: [] };

  constructor(
    private readonly cell: Cell,
    private readonly shop: Shop,
    private readonly periodOf: PeriodOf,
  ) {
    const names = [...new Set(shop.shelves.map((s) => s.station))];
    this.roomOf = shop.shelves.map((s) => names.indexOf(s.station));
    this.capacity = names.map(
      (name) => cell.stations.find((s) => s.name === name)?.capacityParts ?? Number.POSITIVE_INFINITY,
    );
    this.inside = shop.shelves.map(() => 0);
    this.open = shop.shelves.map(() => 0);
    this.inRoom = names.map(() => 0);
    this.hand = shop.acts.map(() => 0);
    this.left = [...shop.counts];
  }

  all(): void {
    this.fillShelf(0);
  }

  private fillShelf(shelf: number): void {
    if (shelf === this.shop.shelves.length) {
      this.fillHand();
      return;
    }
    this.fillShelf(shelf + 1);
    const spec = this.shop.shelves[shelf];
    if (spec.endless !== null) return;
    const room = this.roomOf[shelf];
    const most = this.capacity[room] - this.inRoom[room];
    for (let count = 1; count <= most; count++)
      for (let open = 0; open < spec.batch && open <= count; open++) {
        this.inside[shelf] = count;
        this.open[shelf] = open;
        this.inRoom[room] += count;
        this.fillShelf(shelf + 1);
        this.inRoom[room] -= count;
      }
    this.inside[shelf] = 0;
    this.open[shelf] = 0;
  }

  /** The first action is a pick, so at least one hand is free before it. */
  private fillHand(): void {
    this.startHere();
    if (this.cell.robot.hands === 1) return;
    for (const [act, { kind }] of this.shop.acts.entries()) {
      if (kind === 'pick') continue;
      this.hand[act] = 1;
      this.held = 1;
      this.startHere();
      this.hand[act] = 0;
      this.held = 0;
    }
  }

  private startHere(): void {
    this.start = { inside: [...this.inside], open: [...this.open], hand: [...this.hand] };
    if (this.possible(0)) this.carryOn(0, 0);
  }

  private possible(act: number): boolean {
    const { kind, from, to } = this.shop.acts[act];
    if (this.left[act] === 0) return false;
    if (kind === 'pick') {
      const finished = this.inside[from] - this.open[from];
      return this.held < this.cell.robot.hands && (this.shop.shelves[from].endless !== null || finished > 0);
    }
    if (this.hand[act] === 0) return false;
    return kind === 'hold' || this.inRoom[this.roomOf[to]] < this.capacity[this.roomOf[to]];
  }

  /** Carries out `act`, goes on, and takes it back. `robotS`: robot time up to its start. */
  private carryOn(act: number, robotS: number): void {
    const before = this.shift(act);
    this.left[act]--;
    this.order.push(act);
    this.inHand.push(this.held);
    const endS = robotS + this.shop.acts[act].robotS;
    if (this.order.length === this.shop.counts.reduce((sum, c) => sum + c, 0)) this.finish(endS);
    else
      for (let next = 0; next < this.shop.acts.length; next++) {
        if (!this.possible(next)) continue;
        const arriveS = endS + this.shop.wayS(act, next, this.held);
        // The robot's own time is a lower bound of the period.
        if (arriveS < this.bestS) this.carryOn(next, arriveS);
      }
    this.inHand.pop();
    this.order.pop();
    this.left[act]++;
    before();
  }

  /** Moves the part; returns how to undo it. */
  private shift(act: number): () => void {
    const { kind, from, to } = this.shop.acts[act];
    if (kind !== 'pick') this.hand[act]--;
    if (kind !== 'place') this.hand[act + 1]++;
    const held = this.held;
    this.held += kind === 'pick' ? 1 : kind === 'place' ? -1 : 0;
    const shelf = kind === 'pick' ? from : to;
    const moves = kind !== 'hold' && this.shop.shelves[shelf].endless === null;
    const by = kind === 'pick' ? -1 : 1;
    const open = this.open[shelf];
    if (moves) {
      this.inside[shelf] += by;
      this.inRoom[this.roomOf[shelf]] += by;
      if (kind === 'place') this.open[shelf] = (open + 1) % this.shop.shelves[shelf].batch;
    }
    return () => {
      if (kind !== 'pick') this.hand[act]++;
      if (kind !== 'place') this.hand[act + 1]--;
      this.held = held;
      if (!moves) return;
      this.inside[shelf] -= by;
      this.inRoom[this.roomOf[shelf]] -= by;
      this.open[shelf] = open;
    };
  }

  private finish(endS: number): void {
    const same = (a: readonly number[], b: readonly number[]): boolean => a.every((v, i) => v === b[i]);
    const { start } = this;
    if (!same(this.inside, start.inside) || !same(this.open, start.open) || !same(this.hand, start.hand))
      return;
    const robotS = endS + this.shop.wayS(this.order[this.order.length - 1], this.order[0], this.held);
    if (robotS >= this.bestS) return;
    this.orders++;
    const periodS = this.periodOf(this.shop, this.order, start, this.inHand, this.bestS);
    if (periodS !== null && periodS < this.bestS) this.bestS = periodS;
  }
}
