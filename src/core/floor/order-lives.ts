/**
 * The lives of the parts in a repeating order: which events belong to one part and its batch mates, and from which period
 * on each event happens when the cell starts empty.
 */
import type { OrderEvent } from '../schedule/result.js';

export interface OrderLives {
  /** First period in which the event happens when the cell starts empty. */
  readonly firstPeriod: readonly number[];
  /** Events of one part (and its batch mates) share a life. */
  readonly lifeOf: readonly number[];
  /** True for the first event of a life. */
  readonly beginsLife: readonly boolean[];
  /** Longest life in periods. */
  readonly lifePeriods: number;
  /** False where batches tie the parts of all periods together, so that a life has no beginning. */
  readonly canRunOut: boolean;
}

/** Ties between events of one part: `to` happens `lag` periods after `from`. */
interface Tie {
  readonly from: number;
  readonly to: number;
  readonly lag: number;
}

function tiesOf(order: readonly OrderEvent[]): Tie[] {
  return order.flatMap((e, i) =>
    e.action === 'pick'
      ? e.waitsFor.map((w) => ({ from: w.placeIndex, to: i, lag: w.lag }))
      : [{ from: e.pickIndex, to: i, lag: e.pickLag }],
  );
}

/**
 * Follows every part through its life: all events tied by a carry or a process exist together or not at all, so a
 * part that would have been inside before the start is left out from its infeed to its outfeed.
 */
export function orderLives(order: readonly OrderEvent[]): OrderLives {
  const ties = tiesOf(order);
  const lifeOf = new Array<number>(order.length).fill(-1);
  const period = new Array<number>(order.length).fill(0);
  let lives = 0;
  let consistent = true;
  for (let seed = 0; seed < order.length; seed++) {
    if (lifeOf[seed] !== -1) continue;
    const members = [seed];
    lifeOf[seed] = lives;
    for (const member of members)
      for (const tie of ties) {
        if (tie.from !== member && tie.to !== member) continue;
        const other = tie.from === member ? tie.to : tie.from;
        const at = period[member]! + (tie.from === member ? tie.lag : -tie.lag);
        if (lifeOf[other] === -1) {
          lifeOf[other] = lives;
          period[other] = at;
          members.push(other);
        } else if (period[other] !== at) consistent = false;
      }
    const least = Math.min(...members.map((m) => period[m]!));
    for (const m of members) period[m]! -= least;
    lives++;
  }
  const firstPeriod = consistent ? period : forwardPeriods(order.length, ties);
  const first = firstOfLife(lifeOf, firstPeriod);
  const beginsLife = order.map((_, i) => first.get(lifeOf[i]!) === i);
  return {
    firstPeriod,
    lifeOf,
    beginsLife,
    lifePeriods: Math.max(...firstPeriod) + 1,
    canRunOut: consistent,
  };
}

function firstOfLife(lifeOf: readonly number[], firstPeriod: readonly number[]): Map<number, number> {
  const first = new Map<number, number>();
  lifeOf.forEach((life, i) => {
    if (firstPeriod[i] === 0 && !first.has(life)) first.set(life, i);
  });
  return first;
}

/** Where batches mix the parts of all periods: an event exists once all that it waits for does. */
function forwardPeriods(events: number, ties: readonly Tie[]): number[] {
  const period = new Array<number>(events).fill(0);
  for (let sweep = 0; sweep <= events; sweep++)
    for (const tie of ties) period[tie.to] = Math.max(period[tie.to]!, period[tie.from]! + tie.lag);
  return period;
}
