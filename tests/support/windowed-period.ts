// The least period of one repeating order with longest waits. Tokens are passed through the stations to see which
// place brings the part of which pick, and how many rounds later; the rules then are differences of start times, and
// the least period is raised from circuit to circuit (Bellman-Ford at each) until none is violated.
import type { ShelfStart, Shop } from './listed-orders.js';

interface Rule {
  readonly from: number;
  readonly to: number;
  readonly leastS: number;
  /** start(to) + rounds x period >= start(from) + leastS */
  readonly rounds: number;
}

interface Placed {
  readonly position: number;
  readonly round: number;
}

/** @returns null where no period suits the rules, or where the least is no less than `belowS` */
export function windowedPeriod(
  shop: Shop,
  order: readonly number[],
  start: ShelfStart,
  inHand: readonly number[],
  belowS: number,
): number | null {
  const rules = [...robotRules(shop, order, inHand), ...stationRules(shop, order, start)];
  let periodS = 0;
  for (;;) {
    const circuit = violated(rules, order.length, periodS);
    if (circuit === null) return periodS;
    const rounds = circuit.reduce((sum, rule) => sum + rule.rounds, 0);
    // More time a round does not mend it, and less was ruled out before.
    if (rounds <= 0) return null;
    const raisedS = circuit.reduce((sum, rule) => sum + rule.leastS, 0) / rounds;
    if (raisedS >= belowS) return null;
    if (raisedS <= periodS + 1e-10) return periodS;
    periodS = raisedS;
  }
}

function robotRules(shop: Shop, order: readonly number[], inHand: readonly number[]): Rule[] {
  return order.map((act, from) => {
    const to = (from + 1) % order.length;
    const leastS = shop.acts[act].robotS + shop.wayS(act, order[to], inHand[from]);
    return { from, to, leastS, rounds: to === 0 ? 1 : 0 };
  });
}

function stationRules(shop: Shop, order: readonly number[], start: ShelfStart): Rule[] {
  const rules: Rule[] = [];
  // A batch is the list of its places; parts of the start state were placed before anything is known.
  const queues = shop.shelves.map((shelf, i) => ({
    parts: new Array<Placed[] | null>(start.inside[i] - start.open[i]).fill(null),
    open: new Array<Placed | null>(start.open[i]).fill(null),
    last: null as Placed | null,
    shelf,
  }));
  // After this many rounds every part in the cell was placed in a known round.
  const settled = 3 + Math.max(0, ...start.inside);
  for (let round = 0; round <= settled; round++)
    for (const [position, index] of order.entries()) {
      const act = shop.acts[index];
      if (act.kind === 'hold') continue;
      const queue = queues[act.kind === 'pick' ? act.from : act.to];
      const { shelf } = queue;
      if (shelf.endless !== null) {
        if (queue.last !== null && round === settled && shelf.processS > 0)
          rules.push(rule(shop, order, queue.last, { position, round }, shelf.processS));
        queue.last = { position, round };
      } else if (act.kind === 'place') {
        queue.open.push({ position, round });
        if (queue.open.length < shelf.batch) continue;
        const batch = queue.open.every((p) => p !== null) ? queue.open : null;
        for (let part = 0; part < shelf.batch; part++) queue.parts.push(batch);
        queue.open = [];
      } else {
        const batch = queue.parts.shift()!;
        if (round < settled || batch === null) continue;
        const pick = { position, round };
        for (const place of batch) rules.push(rule(shop, order, place, pick, shelf.processS));
        if (shelf.maxWaitS === null) continue;
        const least = rule(shop, order, batch[batch.length - 1], pick, shelf.processS);
        rules.push({
          from: least.to,
          to: least.from,
          leastS: -(least.leastS + shelf.maxWaitS),
          rounds: -least.rounds,
        });
      }
    }
  return rules;
}

function rule(shop: Shop, order: readonly number[], from: Placed, to: Placed, processS: number): Rule {
  return {
    from: from.position,
    to: to.position,
    leastS: shop.acts[order[from.position]].robotS + processS,
    rounds: to.round - from.round,
  };
}

/** Bellman-Ford from all events at once: rules of a circuit that no start times satisfy, or null. */
function violated(rules: readonly Rule[], events: number, periodS: number): Rule[] | null {
  const startS = new Array<number>(events).fill(0);
  const by = new Array<Rule | null>(events).fill(null);
  let raised = -1;
  for (let sweep = 0; sweep <= events; sweep++) {
    raised = -1;
    for (const r of rules) {
      const least = startS[r.from] + r.leastS - r.rounds * periodS;
      if (least <= startS[r.to] + 1e-9) continue;
      startS[r.to] = least;
      by[r.to] = r;
      raised = r.to;
    }
    if (raised < 0) return null;
  }
  // Still rising after as many sweeps as events: walking back from there ends in a circuit.
  for (let step = 0; step < events; step++) raised = by[raised]!.from;
  const circuit: Rule[] = [];
  let at = raised;
  do {
    circuit.push(by[at]!);
    at = by[at]!.from;
  } while (at !== raised);
  return circuit;
}
