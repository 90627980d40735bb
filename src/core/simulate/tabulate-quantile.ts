/**
 * Makes a costly quantile function fast: values at equal steps of the probability, joined by cubics through four
 * neighbours (Lagrange). The outermost steps, where quantiles bend too sharply for cubics, are computed in full.
 */

const STEPS = 2048;
const EDGE = 64;

/**
 * @param exact a rising quantile function, costly to compute
 * @returns the same function for 0 < u < 1; the table is built at the first draw inside the middle
 */
export function tabulateQuantile(exact: (u: number) => number): (u: number) => number {
  let table: Float64Array | null = null;
  return (u) => {
    const at = u * STEPS;
    const i = Math.floor(at);
    if (i < EDGE || i >= STEPS - EDGE) return exact(u);
    table ??= build(exact);
    const f = at - i;
    const p0 = table[i - 1]!;
    const p1 = table[i]!;
    const p2 = table[i + 1]!;
    const p3 = table[i + 2]!;
    return (
      (-f * (f - 1) * (f - 2) * p0) / 6 +
      ((f + 1) * (f - 1) * (f - 2) * p1) / 2 -
      ((f + 1) * f * (f - 2) * p2) / 2 +
      ((f + 1) * f * (f - 1) * p3) / 6
    );
  };
}

function build(exact: (u: number) => number): Float64Array {
  const table = new Float64Array(STEPS + 1);
  for (let i = EDGE - 1; i <= STEPS - EDGE + 2; i++) table[i] = exact(i / STEPS);
  return table;
}
