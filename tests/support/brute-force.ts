// An oracle that shares no code with the scheduler: it lists every repeating order of one part through a serial cell
// and measures each by playing it for many rounds, instead of looking for circuits.
export interface SerialCell {
  /** Between places 0 (infeed), 1..n (machines), n + 1 (outfeed). */
  readonly travel: readonly (readonly number[])[];
  readonly pickS: readonly number[];
  readonly placeS: readonly number[];
  /** Machines 1..n; index 0 unused. */
  readonly processS: readonly number[];
  readonly hands: 1 | 2;
  readonly indexS: number;
}

interface Action {
  readonly pick: boolean;
  readonly place: number;
}

/** Least period over all one-part orders. */
export function bruteForcePeriod(cell: SerialCell): number {
  const n = cell.processS.length - 1;
  const all: Action[] = [];
  for (let i = 0; i <= n; i++) all.push({ pick: true, place: i }, { pick: false, place: i + 1 });
  let best = Number.POSITIVE_INFINITY;
  // Part s is "the part that goes from place s to s + 1 next": in hand it is known by the place it left.
  for (let occupied = 0; occupied < 1 << n; occupied++) {
    for (const inHand of startHands(n, cell.hands)) {
      const full = Array.from(
        { length: n + 2 },
        (_, i) => i >= 1 && i <= n && ((occupied >> (i - 1)) & 1) === 1,
      );
      list(cell, all, full, [...inHand], [], new Set<number>(), (order) => {
        best = Math.min(best, measure(cell, order, full));
      });
    }
  }
  return best;
}

function startHands(n: number, hands: number): number[][] {
  const choices: number[][] = [[]];
  if (hands === 2) for (let i = 0; i <= n; i++) choices.push([i]);
  return choices;
}

function list(
  cell: SerialCell,
  all: readonly Action[],
  startFull: readonly boolean[],
  startHand: readonly number[],
  order: Action[],
  used: Set<number>,
  tell: (order: readonly Action[]) => void,
): void {
  const full = [...startFull];
  const hand = [...startHand];
  for (const action of order) apply(full, hand, action);
  if (order.length === all.length) {
    const inner = (f: boolean, i: number): boolean => i === 0 || i === full.length - 1 || f === startFull[i];
    const same = full.every(inner) && String([...hand].sort()) === String([...startHand].sort());
    if (same) tell(order);
    return;
  }
  for (let a = 0; a < all.length; a++) {
    if (used.has(a) || (order.length === 0 && a !== 0)) continue;
    if (!possible(cell, all[a], full, hand)) continue;
    used.add(a);
    order.push(all[a]);
    list(cell, all, startFull, startHand, order, used, tell);
    order.pop();
    used.delete(a);
  }
}

function possible(
  cell: SerialCell,
  action: Action,
  full: readonly boolean[],
  hand: readonly number[],
): boolean {
  const last = cell.processS.length;
  if (action.pick) return hand.length < cell.hands && (action.place === 0 || full[action.place]);
  return hand.includes(action.place - 1) && (action.place === last || !full[action.place]);
}

function apply(full: boolean[], hand: number[], action: Action): void {
  if (action.pick) {
    full[action.place] = false;
    hand.push(action.place);
  } else {
    full[action.place] = true;
    hand.splice(hand.indexOf(action.place - 1), 1);
  }
}

/** Plays the order and takes the mean round over many rounds after a long start: exact once the play repeats. */
function measure(cell: SerialCell, order: readonly Action[], startFull: readonly boolean[]): number {
  const rounds = 60;
  const ready = startFull.map(() => 0);
  let timeS = 0;
  const at: number[] = [];
  for (let round = 0; round < 2 * rounds + 1; round++) {
    for (const [i, action] of order.entries()) {
      if (i === 0) at.push(timeS);
      if (action.pick) {
        timeS = Math.max(timeS, ready[action.place]) + cell.pickS[action.place];
      } else {
        timeS += cell.placeS[action.place];
        ready[action.place] = timeS + (cell.processS[action.place] ?? 0);
      }
      const next = order[(i + 1) % order.length];
      timeS +=
        next.place === action.place
          ? cell.hands === 2
            ? cell.indexS
            : 0
          : cell.travel[action.place][next.place];
    }
  }
  // The start of the first action can wait for its part; measure from the end of the whole round instead.
  return (at[2 * rounds] - at[rounds]) / rounds;
}
