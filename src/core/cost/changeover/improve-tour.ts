/** Good tours without proof: nearest next job from every start, then moving runs of jobs elsewhere (3-opt, no turning). */

type Minutes = readonly (readonly number[])[];

export function tourMinutes(minutes: Minutes, tour: readonly number[]): number {
  return tour.reduce((sum, job, k) => sum + minutes[job]![tour[(k + 1) % tour.length]!]!, 0);
}

/** A good tour; the same one for the same minutes. */
export function goodTour(minutes: Minutes): number[] {
  const n = minutes.length;
  const starts = Math.min(n, 60);
  let best = moveRuns(minutes, nearestNext(minutes, 0));
  let bestMinutes = tourMinutes(minutes, best);
  const offer = (tour: number[]): void => {
    const total = tourMinutes(minutes, tour);
    if (total < bestMinutes - 1e-9) [best, bestMinutes] = [tour, total];
  };
  for (let start = 1; start < starts; start++) offer(moveRuns(minutes, nearestNext(minutes, start)));
  const kicks = n <= 60 ? 200 : n <= 150 ? 40 : 5;
  for (let kick = 0; kick < kicks && n >= 8; kick++) offer(moveRuns(minutes, kicked(best, kick)));
  return best;
}

function nearestNext(minutes: Minutes, start: number): number[] {
  const tour = [start];
  const left = new Set(minutes.map((_, job) => job));
  left.delete(start);
  while (left.size > 0) {
    const line = minutes[tour.at(-1)!]!;
    let next = -1;
    for (const job of left) if (next < 0 || line[job]! < line[next]!) next = job;
    left.delete(next);
    tour.push(next);
  }
  return tour;
}

/** Exchanges two neighbouring runs of jobs while that saves minutes; the kernel of the local search. */
function moveRuns(minutes: Minutes, start: readonly number[]): number[] {
  let tour = [...start];
  const n = tour.length;
  const longest = n <= 120 ? n : 30;
  for (let improved = true; improved; ) {
    improved = false;
    for (let i = 0; i < n && !improved; i++) {
      const at = (k: number) => tour[(i + k) % n]!;
      const head = at(0);
      for (let a = 1; a <= Math.min(longest, n - 2) && !improved; a++) {
        const [first, firstEnd] = [at(1), at(a)];
        for (let b = a + 1; b <= Math.min(a + longest, n - 1); b++) {
          const [second, secondEnd, tail] = [at(a + 1), at(b), at(b + 1)];
          const before = minutes[head]![first]! + minutes[firstEnd]![second]! + minutes[secondEnd]![tail]!;
          const after = minutes[head]![second]! + minutes[secondEnd]![first]! + minutes[firstEnd]![tail]!;
          if (after < before - 1e-9) {
            const turned = Array.from({ length: n }, (_, k) => at(k));
            tour = [head, ...turned.slice(a + 1, b + 1), ...turned.slice(1, a + 1), ...turned.slice(b + 1)];
            improved = true;
            break;
          }
        }
      }
    }
  }
  return tour;
}

/** Cuts the tour at three places that depend on the number of the kick and joins the pieces in another order. */
function kicked(tour: readonly number[], kick: number): number[] {
  const n = tour.length;
  const cuts = [0, 1, 2]
    .map((k) => 1 + ((Math.imul(kick + 1, 2654435761) >>> (7 * k)) % (n - 1)))
    .sort((a, b) => a - b);
  const [a, b, c] = cuts as [number, number, number];
  return [...tour.slice(0, a), ...tour.slice(b, c), ...tour.slice(a, b), ...tour.slice(c)];
}
