/**
 * The circuit of a state graph with the most value per second, by policy iteration (R. A. Howard, Dynamic Programming
 * and Markov Processes, 1960; for circuit ratios J. Cochet-Terrasson, G. Cohen, S. Gaubert, M. McGettrick, J.-P.
 * Quadrat, Numerical computation of spectral elements in max-plus algebra, IFAC 1998). At the end every move has been
 * seen to gain nothing against the potentials found, which proves that no circuit is better.
 */
import type { StateGraph } from './state-graph.js';

export interface BestRatio {
  /** Most value per second of any circuit. */
  readonly perS: number;
  /** Moves of a circuit that yields it, in turn. */
  readonly circuit: readonly number[];
}

export interface BestRun extends BestRatio {
  /** Moves from the first state on by the best policy, until a state comes again. */
  readonly run: readonly number[];
}

/** Gains smaller than this share of the value at stake are rounding. */
const NOTHING = 1e-10;
/** A move that loses no more than this share lies on a best circuit. */
const TIGHT = 1e-8;
/** States from which the shortest best circuit is looked for. */
const STARTS = 60;

/** @returns null where no circuit has a value */
export function bestRatio(graph: StateGraph): BestRun | null {
  return new CircuitSearch(graph).run(graph.value);
}

/** The states and moves of a graph, whatever the moves are worth. */
export type Moves = Omit<StateGraph, 'value' | 'act'>;

/** Moves by the state that they lead to: those to state t are moves[first[t]] to moves[first[t + 1]]. */
interface MovesBack {
  readonly first: Int32Array;
  readonly moves: Int32Array;
  /** By move: the state that it leaves. */
  readonly from: Int32Array;
}

function movesBack({ states, firstMove, to }: Moves): MovesBack {
  const first = new Int32Array(states + 1);
  for (const t of to) first[t + 1]!++;
  for (let s = 0; s < states; s++) first[s + 1]! += first[s]!;
  const moves = new Int32Array(to.length);
  const from = new Int32Array(to.length);
  const fill = first.slice(0, states);
  for (let s = 0; s < states; s++)
    for (let m = firstMove[s]!; m < firstMove[s + 1]!; m++) {
      from[m] = s;
      moves[fill[to[m]!]!++] = m;
    }
  return { first, moves, from };
}

/** Policies of one rate whose potentials are worked out anew. */
const LAPS = 60;

/** What a sum of two lost by rounding. */
function roundedOff(a: number, b: number, sum: number): number {
  return Math.abs(a) >= Math.abs(b) ? a - sum + b : b - sum + a;
}

/** States from which one can go on for ever; null where there are none. */
function withoutCorners({ states, firstMove }: Moves, { first, moves, from }: MovesBack): Uint8Array | null {
  const alive = new Uint8Array(states).fill(1);
  const ways = new Int32Array(states);
  const corners: number[] = [];
  for (let s = 0; s < states; s++) {
    ways[s] = firstMove[s + 1]! - firstMove[s]!;
    if (ways[s] === 0) corners.push(s);
  }
  let left = states;
  while (corners.length > 0) {
    const corner = corners.pop()!;
    alive[corner] = 0;
    left--;
    for (let i = first[corner]!; i < first[corner + 1]!; i++) {
      const s = from[moves[i]!]!;
      if (--ways[s]! === 0) corners.push(s);
    }
  }
  return left > 0 ? alive : null;
}

/** Best circuits of one graph for one worth of its moves after another: each search begins where the last one ended. */
export class CircuitSearch {
  private readonly back: MovesBack;
  /** Null where no circuit is. */
  private readonly alive: Uint8Array | null;
  private readonly policy: Int32Array;
  private readonly potential: Float64Array;
  private readonly seen: Int32Array;
  private readonly queue: Int32Array;
  private value: Float64Array = new Float64Array(0);

  constructor(private readonly graph: Moves) {
    this.back = movesBack(graph);
    this.alive = withoutCorners(graph, this.back);
    this.policy = new Int32Array(graph.states).fill(-1);
    this.potential = new Float64Array(graph.states);
    this.seen = new Int32Array(graph.states);
    this.queue = new Int32Array(graph.states);
    for (let s = 0; s < graph.states; s++) {
      if (this.alive?.[s] !== 1) continue;
      // To begin with the quickest move.
      let best = Number.POSITIVE_INFINITY;
      for (let m = graph.firstMove[s]!; m < graph.firstMove[s + 1]!; m++) {
        if (this.alive[graph.to[m]!] === 0 || graph.timeS[m]! >= best) continue;
        best = graph.timeS[m]!;
        this.policy[s] = m;
      }
    }
  }

  /** @returns a best circuit, however long; null where none has a value */
  best(value: Float64Array): BestRatio | null {
    if (this.alive === null) return null;
    this.value = value;
    this.potential.fill(0);
    let best: BestRatio | null = null;
    for (let laps = 0; ; laps++) {
      const circuit = this.bestCircuit();
      if (best === null || circuit.perS > best.perS * (1 + 1e-13)) {
        best = circuit;
        laps = 0;
      }
      // Circuits that yield as much could take turns for ever: after some laps the potentials only rise.
      if (laps < LAPS) this.evaluate(circuit, best.perS);
      if (!this.improve(best.perS)) break;
    }
    return best.perS > 0 ? best : null;
  }

  /** @returns a best circuit of few moves, and the run that leads into one; null where none has a value */
  run(value: Float64Array): BestRun | null {
    const best = this.best(value);
    return best && { perS: best.perS, circuit: this.shortest(best), run: this.played() };
  }

  /**
   * Of the circuits that yield as much the one with the fewest moves, among those through the states of the one found:
   * all its moves lose nothing against the potentials.
   */
  private shortest(best: BestRatio): readonly number[] {
    const { graph, potential, seen, queue, value } = this;
    const alive = this.alive!;
    const { firstMove, to, timeS } = graph;
    const losesNothing = (s: number, m: number): boolean => {
      const next = to[m]!;
      if (alive[next] === 0) return false;
      const loss = potential[s]! - (potential[next]! + value[m]! - best.perS * timeS[m]!);
      return loss <= TIGHT * (1 + Math.abs(potential[s]!));
    };
    const cameBy = new Int32Array(graph.states);
    let shortest = best.circuit;
    seen.fill(0);
    let mark = 0;
    const starts = [...new Set(best.circuit)].slice(0, STARTS);
    for (const start of starts.map((m) => this.back.from[m]!)) {
      mark++;
      let tail = 1;
      queue[0] = start;
      seen[start] = mark;
      const movesTo = new Map<number, number>([[start, 0]]);
      let found = -1;
      for (let head = 0; head < tail && found < 0; head++) {
        const s = queue[head]!;
        const moves = movesTo.get(s)! + 1;
        if (moves >= shortest.length) break;
        for (let m = firstMove[s]!; m < firstMove[s + 1]! && found < 0; m++) {
          if (!losesNothing(s, m)) continue;
          const next = to[m]!;
          if (next === start) found = m;
          else if (seen[next] !== mark) {
            seen[next] = mark;
            cameBy[next] = m;
            movesTo.set(next, moves);
            queue[tail++] = next;
          }
        }
      }
      if (found < 0) continue;
      const circuit = [found];
      for (let s = this.back.from[found]!; s !== start; s = this.back.from[circuit[0]!]!)
        circuit.unshift(cameBy[s]!);
      if (circuit.length < shortest.length && this.yields(circuit, best.perS)) shortest = circuit;
    }
    return shortest;
  }

  private played(): number[] {
    const moves: number[] = [];
    const { seen, policy, alive, graph } = this;
    seen.fill(0);
    for (let s = 0; alive![s] === 1 && seen[s] === 0; s = graph.to[policy[s]!]!) {
      seen[s] = 1;
      moves.push(policy[s]!);
    }
    return moves;
  }

  private yields(circuit: readonly number[], perS: number): boolean {
    const value = circuit.reduce((sum, m) => sum + this.value[m]!, 0);
    const timeS = circuit.reduce((sum, m) => sum + this.graph.timeS[m]!, 0);
    return value >= perS * timeS * (1 - 1e-12);
  }

  /** The best circuit of the policy: every state has one move, so each leads into one. */
  private bestCircuit(): BestRatio {
    const { graph, policy, seen, value: worth } = this;
    const alive = this.alive!;
    seen.fill(0);
    let perS = Number.NEGATIVE_INFINITY;
    let start = -1;
    let mark = 0;
    for (let s = 0; s < graph.states; s++) {
      if (alive[s] === 0 || seen[s] !== 0) continue;
      mark++;
      let at = s;
      while (seen[at] === 0) {
        seen[at] = mark;
        at = graph.to[policy[at]!]!;
      }
      if (seen[at] !== mark) continue;
      // A circuit may have as many moves as there are states: what its sum rounds off is carried along, else the others
      // seem to gain a little on it, lap after lap for ever (A. Neumaier, ZAMM 54, 1974).
      let [value, timeS, offValue, offTimeS] = [0, 0, 0, 0];
      let step = at;
      do {
        const move = policy[step]!;
        const moreValue = value + worth[move]!;
        offValue += roundedOff(value, worth[move]!, moreValue);
        value = moreValue;
        const moreTimeS = timeS + graph.timeS[move]!;
        offTimeS += roundedOff(timeS, graph.timeS[move]!, moreTimeS);
        timeS = moreTimeS;
        step = graph.to[move]!;
      } while (step !== at);
      value += offValue;
      timeS += offTimeS;
      const ratio = timeS > 0 ? value / timeS : value > 0 ? Number.POSITIVE_INFINITY : 0;
      if (ratio <= perS) continue;
      perS = ratio;
      start = at;
    }
    const circuit: number[] = [];
    let at = start;
    do {
      circuit.push(policy[at]!);
      at = graph.to[policy[at]!]!;
    } while (at !== start);
    return { perS, circuit };
  }

  /**
   * Potentials of the policy at a rate. States whose moves lead into another circuit are turned towards the best one where
   * a way leads there, so that the potentials are those of one policy.
   */
  private evaluate({ circuit }: BestRatio, perS: number): void {
    const { seen, queue } = this;
    const { first, moves, from } = this.back;
    seen.fill(0);
    queue[0] = from[circuit[0]!]!;
    seen[queue[0]!] = 1;
    let tail = 1;
    let byPolicy = 0;
    for (let byAny = 0; byAny < tail; byAny++) {
      for (; byPolicy < tail; byPolicy++) {
        const at = queue[byPolicy]!;
        for (let i = first[at]!; i < first[at + 1]!; i++)
          if (this.policy[from[moves[i]!]!] === moves[i]) tail = this.follow(moves[i]!, perS, tail);
      }
      const at = queue[byAny]!;
      for (let i = first[at]!; i < first[at + 1]!; i++) tail = this.follow(moves[i]!, perS, tail);
    }
  }

  /** The state that a move leaves, if it is new, takes that move. */
  private follow(move: number, perS: number, tail: number): number {
    const { seen, queue, policy, potential, value, graph, back } = this;
    const s = back.from[move]!;
    if (seen[s] === 1 || this.alive![s] === 0) return tail;
    seen[s] = 1;
    policy[s] = move;
    potential[s] = potential[graph.to[move]!]! + value[move]! - perS * graph.timeS[move]!;
    queue[tail] = s;
    return tail + 1;
  }

  /** Takes for every state the move of most gain; whether any was better than the one it had. */
  private improve(perS: number): boolean {
    const { graph, policy, potential, value } = this;
    const alive = this.alive!;
    const { states, firstMove, to, timeS } = graph;
    let better = false;
    // Moves mostly lead to states that were met later: so what one state gains reaches those before it at once.
    for (let s = states - 1; s >= 0; s--) {
      if (alive[s] === 0) continue;
      let most = potential[s]!;
      const eps = NOTHING * (1 + Math.abs(most));
      for (let m = firstMove[s]!; m < firstMove[s + 1]!; m++) {
        const next = to[m]!;
        if (alive[next] === 0) continue;
        const gain = potential[next]! + value[m]! - perS * timeS[m]!;
        if (gain <= most + eps) continue;
        most = gain;
        policy[s] = m;
        better = true;
      }
      potential[s] = most;
    }
    return better;
  }
}
