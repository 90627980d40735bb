/**
 * Shortest ways between all pairs, over any places between (R. W. Floyd, Algorithm 97, Comm. ACM 5, 1962). A travel
 * table may break the triangle inequality; a bound that must hold for every order may then use only these.
 *
 * @param timeS timeS[a * n + b], seconds from a to b; Infinity where there is no way
 * @param n number of places
 * @returns a new matrix of the same form
 */
export function shortestWays(timeS: Float64Array, n: number): Float64Array {
  const least = Float64Array.from(timeS);
  for (let via = 0; via < n; via++)
    for (let a = 0; a < n; a++) {
      const first = least[a * n + via]!;
      for (let b = 0; b < n; b++) {
        const detour = first + least[via * n + b]!;
        if (detour < least[a * n + b]!) least[a * n + b] = detour;
      }
    }
  return least;
}
