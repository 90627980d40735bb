// The least period of one repeating order by playing it, every action as early as it can be, until the state of the
// cell repeats. Right for cells without longest waits: there the earliest play settles into the least period
// (Baccelli and others, Synchronization and Linearity, 1992: the max-plus power becomes periodic).
import type { Act, Shelf, ShelfStart, Shop } from './listed-orders.js';

/** Rounds played at most, and states looked back over. */
const ROUNDS = 4000;
const BACK = 24;

interface Queue {
  /** When each finished-loading part is ready, first in first out. */
  readonly readyS: number[];
  /** Loaded into a batch that is not yet full. */
  open: number;
  /** When an infeed or outfeed can serve again. */
  freeS: number;
}

/** @returns mean time of a round once the play repeats itself exactly */
export function playedPeriod(
  shop: Shop,
  order: readonly number[],
  start: ShelfStart,
  inHand: readonly number[],
): number {
  const queues = shop.shelves.map((_, i) => ({
    readyS: new Array<number>(start.inside[i] - start.open[i]).fill(0),
    open: start.open[i],
    freeS: 0,
  }));
  const states: { at: number; seen: number[] }[] = [];
  let now = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const seen = queues.flatMap((q) => [q.open, ...[...q.readyS, q.freeS].map((s) => Math.max(0, s - now))]);
    for (let back = 1; back <= Math.min(BACK, states.length); back++) {
      const before = states[states.length - back];
      if (alike(before.seen, seen)) return (now - before.at) / back;
    }
    states.push({ at: now, seen });
    for (const [i, act] of order.entries()) {
      now = carryOut(shop.shelves, queues, shop.acts[act], now);
      now += shop.wayS(act, order[(i + 1) % order.length], inHand[i]);
    }
  }
  throw new Error('the play did not repeat itself; give the test more rounds');
}

function alike(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((v, i) => Math.abs(v - b[i]) < 1e-9);
}

function carryOut(shelves: readonly Shelf[], queues: readonly Queue[], act: Act, arriveS: number): number {
  if (act.kind === 'hold') return arriveS + act.robotS;
  const index = act.kind === 'pick' ? act.from : act.to;
  const [shelf, queue] = [shelves[index], queues[index]];
  if (shelf.endless !== null) {
    const doneS = Math.max(arriveS, queue.freeS) + act.robotS;
    queue.freeS = doneS + shelf.processS;
    return doneS;
  }
  if (act.kind === 'pick') return Math.max(arriveS, queue.readyS.shift()!) + act.robotS;
  const doneS = arriveS + act.robotS;
  queue.open++;
  if (queue.open === shelf.batch) {
    // The last part in starts the whole batch.
    for (let part = 0; part < shelf.batch; part++) queue.readyS.push(doneS + shelf.processS);
    queue.open = 0;
  }
  return doneS;
}
