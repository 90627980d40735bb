/**
 * What an order that is followed from the empty cell leaves where, in numbers of parts alone: after how many events a part
 * is picked again, and what lies in the cell before each pick. Where the same lies there later, the order can go on as it
 * did then, however little room there is.
 *
 *      pick in, place oven | pick oven, place out        with one part more in the oven at the end of each period,
 *                      \___________________  the part that is placed at 1 is due at the pick two events and a period later
 */
import { type CompiledCell, INFEED, WORK } from './compiled-cell.js';
import { type OrderActs, PICK, PLACE } from './order-acts.js';
import type { OrderLives } from './order-lives.js';

export interface OrderContents {
  /** By [station * opCount + op], the places where the order leaves parts; -1 = none. */
  readonly nodeOf: Int32Array;
  readonly nodes: number;
  /** By place: events until the turn of the pick that takes its part out again; 0 where the order comes to a stop. */
  readonly dueIn: Int32Array;
  /** By pick: what lay in the cell before it, see `contentsText`. */
  readonly before: readonly ReadonlySet<string>[];
}

type Acts = OrderActs & Pick<OrderLives, 'firstPeriod' | 'lifePeriods'>;

/** Periods in which an order with batches has settled, or never does. */
const MOST_PERIODS = 40;

/** @param parts by node, @param loaded of those the ones of a batch that is not complete */
export function contentsText(parts: Int32Array, loaded: Int32Array): string {
  return `${parts};${loaded}`;
}

export function orderContents(acts: Acts, cell: CompiledCell): OrderContents {
  const { count, action, station, op } = acts;
  const nodeOf = new Int32Array(cell.stationCount * cell.opCount).fill(-1);
  let nodes = 0;
  for (let i = 0; i < count; i++) {
    const at = station[i]! * cell.opCount + op[i]!;
    if (action[i] === PLACE && cell.opKind[op[i]!] === WORK && nodeOf[at] === -1) nodeOf[at] = nodes++;
  }
  const eventNode = Int32Array.from(station, (s, i) => nodeOf[s * cell.opCount + op[i]!]!);
  const walk = new Walk(acts, cell, eventNode, nodes);
  const settles = walk.settles();
  const dueIn = new Int32Array(count);
  for (let node = 0; settles && node < nodes; node++) {
    const own = [...eventNode.keys()].filter((i) => eventNode[i] === node);
    const picks = own.filter((i) => action[i] === PICK);
    for (const [rank, i] of own.filter((e) => action[e] === PLACE).entries()) {
      const turn = rank + walk.parts[node]!;
      dueIn[i] = Math.floor(turn / picks.length) * count + picks[turn % picks.length]! - i;
    }
  }
  return { nodeOf, nodes, dueIn, before: settles ? walk.before : walk.before.map(() => new Set<string>()) };
}

/** The order followed period after period, each process over as soon as a part is wanted. */
class Walk {
  readonly before: readonly Set<string>[];
  readonly parts: Int32Array;
  private readonly loaded: Int32Array;
  private readonly inside: Int32Array;
  /** By station: operation of a batch that is not complete; -1 = none. */
  private readonly pending: Int32Array;

  constructor(
    private readonly acts: Acts,
    private readonly cell: CompiledCell,
    private readonly eventNode: Int32Array,
    nodes: number,
  ) {
    this.before = Array.from({ length: acts.count }, () => new Set<string>());
    this.parts = new Int32Array(nodes);
    this.loaded = new Int32Array(nodes);
    this.inside = new Int32Array(cell.stationCount);
    this.pending = new Int32Array(cell.stationCount).fill(-1);
  }

  /** @returns whether a period ends as the one before, with every event possible in its turn */
  settles(): boolean {
    const { acts } = this;
    let last = '';
    for (let period = 0; period < acts.lifePeriods + MOST_PERIODS; period++) {
      for (let i = 0; i < acts.count; i++)
        if (period >= acts.firstPeriod[i]! && !this.follows(i)) return false;
      const now = contentsText(this.parts, this.loaded);
      if (period >= acts.lifePeriods && now === last) return true;
      last = now;
    }
    return false;
  }

  private follows(i: number): boolean {
    const { cell, parts, loaded, inside, pending } = this;
    const node = this.eventNode[i]!;
    const op = this.acts.op[i]!;
    const s = this.acts.station[i]!;
    if (this.acts.action[i] === PICK) {
      this.before[i]!.add(contentsText(parts, loaded));
      if (cell.opKind[op] === INFEED) return true;
      inside[s]!--;
      return node >= 0 && parts[node]!-- > loaded[node]!;
    }
    if (node < 0) return true;
    if (pending[s]! >= 0 && pending[s] !== op) return false;
    parts[node]!++;
    loaded[node] = (loaded[node]! + 1) % cell.opBatch[op]!;
    pending[s] = loaded[node]! > 0 ? op : -1;
    return inside[s]!++ < cell.firstSlot[s + 1]! - cell.firstSlot[s]!;
  }
}
