// Independent machines with unlike cycles between one infeed and one outfeed: random cells from a seed, and the least
// period of given visit counts with one hand as a mixed-integer program.
import type { Cell } from '../../src/core/model/cell.js';
import { emptyCell, station, step } from './line-cell.js';
import { drawFrom } from './random-shops.js';

/** Places: 0 the infeed, 1..n the machines, n + 1 the outfeed. */
export interface UnlikeMachines {
  readonly travel: readonly (readonly number[])[];
  /** At the infeed. */
  readonly fetchS: number;
  /** At the outfeed. */
  readonly putS: number;
  /** Machines 1..n; index 0 unused. */
  readonly loadS: readonly number[];
  readonly unloadS: readonly number[];
  readonly cycleS: readonly number[];
}

export function unlikeMachines(seed: number, machines: number): UnlikeMachines {
  const draw = drawFrom(seed * 31 + machines);
  const spots = Array.from({ length: machines + 2 }, () => ({ x: draw(0, 8), y: draw(0, 5) }));
  const each = (from: number, to: number): number[] =>
    Array.from({ length: machines + 1 }, (_, i) => (i === 0 ? 0 : draw(from, to)));
  return {
    travel: spots.map((a) => spots.map((b) => Math.abs(a.x - b.x) + Math.abs(a.y - b.y))),
    fetchS: draw(2, 6),
    putS: draw(2, 6),
    loadS: each(3, 9),
    unloadS: each(3, 9),
    cycleS: each(20 * machines, 90 * machines),
  };
}

/** Every machine makes a part of its own. */
export function unlikeCell(spec: UnlikeMachines, hands: 1 | 2 = 1): Cell {
  const n = spec.cycleS.length - 1;
  const name = (i: number): string => (i === 0 ? 'in' : i === n + 1 ? 'out' : `m${i}`);
  const places = spec.travel.map((_, i) => i);
  return {
    ...emptyCell,
    robot: { ...emptyCell.robot, hands, indexS: hands === 2 ? 1 : 0 },
    stations: places.map((i) => station(name(i), i === 0 ? 'infeed' : i === n + 1 ? 'outfeed' : 'machine')),
    travel: places.flatMap((a) =>
      places.flatMap((b) => {
        const timeS = spec.travel[a][b];
        return a === b ? [] : [{ from: name(a), to: name(b), emptyS: timeS, loadedS: timeS }];
      }),
    ),
    routes: places.slice(1, -1).map((i) => ({
      part: `p${i}`,
      steps: [
        step(1, 'in', { unloadS: spec.fetchS }),
        step(2, name(i), { cycleS: spec.cycleS[i], loadS: spec.loadS[i], unloadS: spec.unloadS[i] }),
        step(3, 'out', { loadS: spec.putS }),
      ],
    })),
  };
}

interface Move {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly workS: number;
}

/** @param counts visits in a period of machines 1..n; index 0 unused */
export function visitsModel(spec: UnlikeMachines, counts: readonly number[]): string {
  const n = spec.cycleS.length - 1;
  const moves: Move[] = [];
  const rows: string[] = [];
  const binaries: string[] = [];
  const row = (text: string): void => void rows.push(` c${rows.length}: ${text}`);
  let longestS = 0;
  for (let i = 1; i <= n; i++)
    for (let v = 1; v <= counts[i]; v++) {
      const loadS = spec.fetchS + spec.travel[0][i] + spec.loadS[i];
      const unloadS = spec.unloadS[i] + spec.travel[i][n + 1] + spec.putS;
      moves.push({ name: `l${i}_${v}`, from: 0, to: i, workS: loadS });
      moves.push({ name: `u${i}_${v}`, from: i, to: n + 1, workS: unloadS });
      longestS += loadS + unloadS + spec.cycleS[i] + 2 * Math.max(...spec.travel[i], ...spec.travel[n + 1]);
    }
  const M = 2 * longestS;
  for (const [k, a] of moves.entries())
    for (const b of moves.slice(k + 1)) {
      const there = a.workS + spec.travel[a.to][b.from];
      const back = b.workS + spec.travel[b.to][a.from];
      const x = `x_${a.name}_${b.name}`;
      binaries.push(x);
      row(`${b.name} - ${a.name} - ${M} ${x} >= ${there - M}`);
      row(`${a.name} - ${b.name} + ${M} ${x} >= ${back}`);
      row(`T + ${a.name} - ${b.name} >= ${back}`);
      row(`T + ${b.name} - ${a.name} >= ${there}`);
    }
  const first = moves[0].name;
  for (let i = 1; i <= n; i++) {
    if (counts[i] === 0) continue;
    const last = counts[i];
    // A part starts its cycle at the end of its load and is picked at the start of its unload.
    const stayS = spec.fetchS + spec.travel[0][i] + spec.loadS[i] + spec.cycleS[i];
    for (let v = 1; v < last; v++) {
      row(`u${i}_${v} - l${i}_${v} >= ${stayS}`);
      row(`l${i}_${v + 1} - u${i}_${v} >= 0`);
    }
    // s = 1: the last part stays over the end of the round.
    const s = `s${i}`;
    binaries.push(s);
    row(`u${i}_${last} - l${i}_${last} + ${M} ${s} >= ${stayS}`);
    row(`T + u${i}_${last} - l${i}_${last} - ${M} ${s} >= ${stayS - M}`);
    row(`l${i}_1 - u${i}_${last} - ${M} ${s} >= ${-M}`);
  }
  const bounds = moves.slice(1).map((m) => ` ${m.name} <= ${longestS}`);
  return (
    `Minimize\n obj: T\nSubject To\n${rows.join('\n')}\nBounds\n ${first} = 0\n T <= ${longestS}\n` +
    `${bounds.join('\n')}\nBinary\n ${binaries.join('\n ')}\nEnd\n`
  );
}
