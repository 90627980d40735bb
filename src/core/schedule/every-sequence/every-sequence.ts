/**
 * The most that any sequence whatever makes of a cell, repeating or not, and a repeating sequence that makes it: from
 * all states of the cell and all moves between them, where they are few enough to be listed.
 */
import type { PlaySpace } from '../play/play-space.js';
import { bestRatio } from './best-ratio.js';
import { Exploration, hasStateGraph } from './state-graph.js';

export interface EverySequenceLimits {
  /** States listed at most. */
  readonly states: number;
  /** Moment (Date.now()) after which it is given up; Infinity where no time limit is asked for. */
  readonly untilMs: number;
}

export interface EverySequence {
  /** Value per second, in the goal's terms, that no sequence exceeds (with a mix: sets of it, whatever the parts' order). */
  readonly valuePerS: number;
  /** Events of the space's plan, a repeating sequence that yields it (with a mix its parts may come in another one). */
  readonly events: readonly number[];
  /** Acts from the empty cell on by which it is reached, until a state comes again. */
  readonly acts: readonly number[];
  readonly states: number;
}

/** Asked for again and again with more states: what has been listed is kept. */
export class ListedStates {
  private readonly exploration: Exploration | null;
  private found: EverySequence | null = null;

  /** @param space by its goal; of an asked mix only the worth of its parts counts, so that the value is a bound */
  constructor(private readonly space: PlaySpace) {
    this.exploration = hasStateGraph(space) ? new Exploration(space) : null;
  }

  /** What was found so far; null where nothing was. */
  known(): EverySequence | null {
    return this.found;
  }

  /**
   * @returns null where longest waits, occasional steps or unlimited places keep the states from saying all, where they
   *   are too many, or where nothing can be made
   */
  most({ states, untilMs }: EverySequenceLimits): EverySequence | null {
    if (this.found !== null) return this.found.states <= states ? this.found : null;
    const graph = this.exploration?.run(states, untilMs) ?? null;
    const best = graph && bestRatio(graph);
    if (best === null || graph === null) return null;
    const events = best.circuit.flatMap((move) => eventsOf(this.space, graph.act[move]!));
    const acts = best.run.map((move) => graph.act[move]!);
    this.found = { valuePerS: best.perS, events, acts, states: graph.states };
    return this.found;
  }
}

/** With one hand a move is a whole carry. */
function eventsOf({ plan, carries, carryOf }: PlaySpace, act: number): readonly number[] {
  return plan.hands === 1 ? carries[carryOf[act]!]!.events : [act];
}
