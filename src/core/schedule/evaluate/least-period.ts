/**
 * The least period of a repeating schedule: the maximum cycle ratio of its constraint graph.
 *
 * Each arc says t(to) + periods * T >= t(from) + weightS. The least T for which times t exist is the largest
 * (sum of weights) / (sum of periods) over the circuits of the graph. Circuits whose periods sum to less than zero
 * (they come from longest waits) bound T from above, so the feasible T form an interval that may be empty.
 *
 *         7 s, 0 ends                       7 s, 0 ends
 *      a -------------> b                a -------------> b
 *      ^                |                ^                |
 *      +----------------+                +----------------+
 *         3 s, 1 end                       -20 s, -1 end
 *      (7 + 3) / 1: T >= 10 s            (7 - 20) / -1: T <= 13 s
 *
 * Source: F. Baccelli, G. Cohen, G. J. Olsder, J.-P. Quadrat, Synchronization and Linearity, Wiley 1992, chapter 2.
 * Method: raise T from the largest known bound to the ratio of a positive circuit until none is left; each step is a
 * longest-path computation (Bellman-Ford), and every new T is the ratio of a real circuit, so the result is exact up
 * to rounding of the sums and is never searched on a grid.
 */

/** t(to) + periods * T >= t(from) + weightS. */
export interface PeriodArc {
  readonly from: number;
  readonly to: number;
  readonly weightS: number;
  /** Period ends crossed; may be negative for a longest wait. */
  readonly periods: number;
}

export interface LeastPeriodFound {
  readonly feasible: true;
  readonly periodS: number;
  /** Largest feasible period; Infinity where nothing bounds it from above. */
  readonly longestPeriodS: number;
  /** Arcs (indices into the input) of a circuit that sets the period, in order; empty where the period is 0. */
  readonly criticalCircuit: readonly number[];
  /** Earliest times for that period, one a node, the smallest of them 0. */
  readonly startS: readonly number[];
}

export interface LeastPeriodInfeasible {
  readonly feasible: false;
  /** Arcs of circuits that contradict each other: alone or together they leave no period. */
  readonly contradiction: readonly (readonly number[])[];
}

export type LeastPeriod = LeastPeriodFound | LeastPeriodInfeasible;

const RELATIVE_TOLERANCE = 1e-11;

/**
 * @param arcs constraints; nodes are whole numbers from 0 up
 * @returns the least period with a critical circuit and start times, or the circuits that contradict each other
 * @throws RangeError where a weight or a period count is not finite, or a node is not a whole number from 0 up
 * @example leastPeriod([{ from: 0, to: 0, weightS: 7, periods: 2 }]) // periodS 3.5
 */
export function leastPeriod(arcs: readonly PeriodArc[]): LeastPeriod {
  checkArcs(arcs);
  const graph = graphOf(arcs);
  const least = leastOfGraph(graph);
  if (!least.feasible) return least;
  const { periodS, criticalCircuit, potential } = least;
  return {
    feasible: true,
    periodS,
    longestPeriodS: longestPeriod(graph, periodS),
    criticalCircuit,
    startS: fromZero(potential),
  };
}

export interface LeastOfGraph {
  readonly feasible: true;
  readonly periodS: number;
  readonly criticalCircuit: readonly number[];
  /** Earliest times for that period, by node. */
  readonly potential: Float64Array;
}

/**
 * The least period alone.
 *
 * @param fromS a period that is known to be a bound; where nothing is longer it is the least one, without a circuit
 * @throws RangeError where a weight is not finite
 */
export function leastOfGraph(graph: ArcGraph, fromS = 0): LeastOfGraph | LeastPeriodInfeasible {
  const walks = new Walks(graph);
  let periodS = fromS;
  let critical: number[] = [];
  for (;;) {
    const circuit = walks.longestPaths(periodS);
    if (circuit === null) break;
    const { weightS, periods } = circuitSums(graph, circuit);
    if (periods <= 0) {
      return {
        feasible: false,
        contradiction: critical.length > 0 && periods < 0 ? [circuit, critical] : [circuit],
      };
    }
    const next = weightS / periods;
    // Else rounding only: the circuit is positive by less than the sums can resolve.
    if (!(next > periodS)) break;
    periodS = next;
    critical = circuit;
  }
  return { feasible: true, periodS, criticalCircuit: critical, potential: walks.potential };
}

/** The arcs as flat lists: an order is worked out some hundred times in a search. */
export interface ArcGraph {
  readonly nodes: number;
  /** How many arcs; the lists may be longer. */
  readonly arcs: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly weightS: Float64Array;
  readonly periods: Int32Array;
}

function graphOf(list: readonly PeriodArc[]): ArcGraph {
  return {
    nodes: list.reduce((most, arc) => Math.max(most, arc.from + 1, arc.to + 1), 0),
    arcs: list.length,
    from: Int32Array.from(list, (arc) => arc.from),
    to: Int32Array.from(list, (arc) => arc.to),
    weightS: Float64Array.from(list, (arc) => arc.weightS),
    periods: Int32Array.from(list, (arc) => arc.periods),
  };
}

/** The greatest feasible period: the same walk downwards over circuits with a negative period count. */
export function longestPeriod(graph: ArcGraph, leastS: number): number {
  const { arcs, weightS: weights } = graph;
  if (!graph.periods.subarray(0, arcs).some((periods) => periods < 0)) return Number.POSITIVE_INFINITY;
  // A period so long that only circuits with a negative count can be positive.
  const total = weights.subarray(0, arcs).reduce((sum, weightS) => sum + Math.abs(weightS), 0);
  const walks = new Walks(graph);
  let periodS = Math.max(leastS, 2 * total + 1);
  let bounded = false;
  for (;;) {
    const circuit = walks.longestPaths(periodS);
    if (circuit === null) return bounded ? periodS : Number.POSITIVE_INFINITY;
    const { weightS, periods } = circuitSums(graph, circuit);
    if (periods >= 0) return bounded ? periodS : Number.POSITIVE_INFINITY;
    const next = weightS / periods;
    if (!(next < periodS)) return periodS;
    bounded = true;
    periodS = Math.max(leastS, next);
    if (periodS === leastS) return leastS;
  }
}

/** Longest paths over a graph, at one period after another. */
class Walks {
  readonly potential: Float64Array;
  /** Arc that last raised each node; -1 = none. */
  private readonly by: Int32Array;
  private readonly seen: Int32Array;
  private readonly scaleS: number;

  constructor(private readonly graph: ArcGraph) {
    const { nodes, arcs, weightS } = graph;
    this.potential = new Float64Array(nodes);
    this.by = new Int32Array(nodes);
    this.seen = new Int32Array(nodes);
    let scaleS = 0;
    for (let a = 0; a < arcs; a++) {
      if (!Number.isFinite(weightS[a]!))
        throw new RangeError('an arc weight must be a finite number of seconds');
      scaleS = Math.max(scaleS, Math.abs(weightS[a]!));
    }
    this.scaleS = scaleS;
  }

  /** @returns the arcs of a positive circuit, in order; null where there is none: then `potential` holds the paths */
  longestPaths(periodS: number): number[] | null {
    const { potential, by } = this;
    const { nodes, arcs, from, to, weightS, periods } = this.graph;
    potential.fill(0);
    by.fill(-1);
    const scale = Math.max(periodS, this.scaleS);
    const tolerance = RELATIVE_TOLERANCE * Math.max(1, scale) * Math.max(1, nodes);
    for (let sweep = 0; sweep <= nodes; sweep++) {
      let changed = false;
      for (let a = 0; a < arcs; a++) {
        const end = to[a]!;
        const reach = potential[from[a]!]! + weightS[a]! - periods[a]! * periodS;
        if (reach > potential[end]! + tolerance) {
          potential[end] = reach;
          by[end] = a;
          changed = true;
        }
      }
      if (!changed) return null;
      const circuit = this.circuit();
      if (circuit !== null) return circuit;
    }
    return null;
  }

  /** A circuit among the arcs that last raised each node, or null. */
  private circuit(): number[] | null {
    const { by, seen } = this;
    const { from } = this.graph;
    seen.fill(-1);
    for (let start = 0; start < by.length; start++) {
      let node = start;
      while (seen[node] === -1 && by[node]! >= 0) {
        seen[node] = start;
        node = from[by[node]!]!;
      }
      if (seen[node] !== start || by[node]! < 0) continue;
      const circuit: number[] = [];
      let walk = node;
      do {
        const arc = by[walk]!;
        circuit.push(arc);
        walk = from[arc]!;
      } while (walk !== node);
      return circuit.reverse();
    }
    return null;
  }
}

function circuitSums(graph: ArcGraph, circuit: readonly number[]): { weightS: number; periods: number } {
  let weightS = 0;
  let periods = 0;
  for (const a of circuit) {
    weightS += graph.weightS[a]!;
    periods += graph.periods[a]!;
  }
  return { weightS, periods };
}

function fromZero(potential: Float64Array): number[] {
  let least = Number.POSITIVE_INFINITY;
  for (const value of potential) least = Math.min(least, value);
  return Array.from(potential, (value) => value - least);
}

function checkArcs(arcs: readonly PeriodArc[]): void {
  for (const arc of arcs) {
    if (!Number.isInteger(arc.periods)) throw new RangeError('the periods of an arc must be a whole number');
    if (!isNode(arc.from) || !isNode(arc.to)) throw new RangeError('a node must be a whole number from 0 up');
  }
}

function isNode(node: number): boolean {
  return Number.isInteger(node) && node >= 0;
}
