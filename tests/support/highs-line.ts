// The least one-part period of a serial one-hand cell as a mixed-integer program for HiGHS: an outside solver, and the
// reference of the benchmark. Moves 0..n take the part from place i to i + 1; the robot may wait with it in hand.
import loadHighs from 'highs';
import type { SerialTimes } from './random-cells.js';

const highs = await (loadHighs as unknown as () => Promise<Highs>)();

interface Highs {
  solve(
    model: string,
    options?: Record<string, unknown>,
  ): { Status: string; ObjectiveValue: number; Columns: Record<string, { Primal: number }> };
}

export function highsSolve(model: string, options: Record<string, unknown> = {}): ReturnType<Highs['solve']> {
  return highs.solve(model, {
    mip_rel_gap: 0,
    mip_abs_gap: 1e-7,
    mip_feasibility_tolerance: 1e-9,
    ...options,
  });
}

/** Least period, or null where HiGHS says that there is none. */
export function highsPeriod(cell: SerialTimes): number | null {
  const result = highsSolve(lineModel(cell));
  if (result.Status === 'Optimal') return result.ObjectiveValue;
  if (result.Status === 'Infeasible') return null;
  throw new Error(`HiGHS came to no end: ${result.Status}`);
}

export function lineModel(cell: SerialTimes): string {
  const n = cell.processS.length - 1;
  const moves = Array.from({ length: n + 1 }, (_, i) => i);
  const carryS = moves.map((i) => cell.pickS[i] + (cell.carriedS?.[i] ?? cell.travel[i][i + 1]));
  const work = moves.map((i) => carryS[i] + cell.placeS[i + 1]);
  // One part at a time through the whole cell is always a period long enough, so times need not exceed it.
  const longest = moves.reduce(
    (sum, i) => sum + work[i] + (cell.processS[i + 1] ?? 0) + Math.max(...cell.travel[i + 1]),
    0,
  );
  const M = 2 * longest;
  const rows: string[] = [];
  const row = (text: string): void => void rows.push(` c${rows.length}: ${text}`);
  for (const i of moves) {
    row(`q${i} - t${i} >= ${carryS[i]}`);
    // Back at the infeed before the next round starts.
    row(`T - q${i} >= ${cell.placeS[i + 1] + cell.travel[i + 1][0]}`);
  }
  for (const i of moves)
    for (const j of moves) {
      if (i >= j) continue;
      row(`t${j} - q${i} - ${M} x${i}_${j} >= ${cell.placeS[i + 1] + cell.travel[i + 1][j] - M}`);
      row(`t${i} - q${j} + ${M} x${i}_${j} >= ${cell.placeS[j + 1] + cell.travel[j + 1][i]}`);
    }
  for (let i = 1; i <= n; i++) {
    // x = 1: the place comes before the pick in the round; x = 0: the part stays over the round's end.
    const x = `x${i - 1}_${i}`;
    const leastS = cell.placeS[i] + cell.processS[i];
    row(`t${i} - q${i - 1} - ${M} ${x} >= ${leastS - M}`);
    row(`t${i} + T - q${i - 1} + ${M} ${x} >= ${leastS}`);
    const most = cell.maxWaitS[i];
    if (most === null) continue;
    row(`t${i} - q${i - 1} + ${M} ${x} <= ${leastS + most + M}`);
    row(`t${i} + T - q${i - 1} - ${M} ${x} <= ${leastS + most}`);
  }
  const binaries = moves.flatMap((i) => moves.flatMap((j) => (i < j ? [`x${i}_${j}`] : [])));
  return `Minimize\n obj: T\nSubject To\n${rows.join('\n')}\nBounds\n t0 = 0\n T <= ${longest}\n${moves
    .map((i) => ` t${i} <= ${longest}\n q${i} <= ${longest}`)
    .slice(1)
    .join('\n')}\n q0 <= ${longest}\nBinary\n ${binaries.join('\n ')}\nEnd\n`;
}
