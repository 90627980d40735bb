/**
 * A first list of tasks made job by job: each new one goes where the list so far loses least, beside a task of its part
 * or at one of some places spread over the list, on each machine that can make it.
 * Source: insertion in the manner of Nawaz, Enscore, Ham 1983, here with a few places only.
 */
import type { JobShop } from './job-shop.js';
import type { LaidOut, Task, WeekRun } from './lay-out-week.js';

/** Places spread over the list that are tried beside those next to the same part. */
const PLACES = 8;

/**
 * @param order jobs in the order in which they are put in
 * @param isOver true where the time that the user gave is over: the rest then goes to the end
 */
export function insertedTasks(
  shop: JobShop,
  run: WeekRun,
  order: readonly number[],
  costOf: (laid: LaidOut) => number,
  isOver: () => boolean,
): Task[] {
  let list: readonly Task[] = [];
  for (const job of order) {
    const ways = isOver() ? [] : placesOf(shop, list, job);
    const end = { at: list.length, machines: waysOf(shop, job)[0]! };
    let [best, least] = [end, Number.POSITIVE_INFINITY];
    for (const way of ways) {
      const laid = run.layOut(withTask(shop, list, job, way));
      const cost = costOf(laid!);
      if (cost < least) [best, least] = [way, cost];
    }
    list = withTask(shop, list, job, best);
  }
  return [...list];
}

interface Way {
  readonly at: number;
  readonly machines: Task['machines'];
}

function withTask(shop: JobShop, list: readonly Task[], job: number, { at, machines }: Way): Task[] {
  const { quantity } = shop.problem.jobs[job]!;
  return [...list.slice(0, at), { job, quantity, machines }, ...list.slice(at)];
}

function placesOf(shop: JobShop, list: readonly Task[], job: number): Way[] {
  const like = list.flatMap((task, k) => (shop.routeOf[task.job] === shop.routeOf[job] ? [k] : []));
  const spread = Array.from({ length: PLACES + 1 }, (_, i) => Math.round((i * list.length) / PLACES));
  const machines = waysOf(shop, job);
  return [
    ...like.flatMap((k) => [k, k + 1].map((at) => ({ at, machines: list[k]!.machines }))),
    ...[...new Set(spread)].flatMap((at) => machines.map((way) => ({ at, machines: way }))),
  ];
}

/** One machine a step, the k-th that can make it for each k, and all of them at once. */
function waysOf(shop: JobShop, job: number): Task['machines'][] {
  const { steps } = shop.parts[shop.routeOf[job]!]!;
  const most = Math.max(1, ...steps.map((step) => step.machines.length));
  const single = Array.from({ length: most }, (_, k) =>
    steps.map((step) => [step.machines[k % step.machines.length]!]),
  );
  return most > 1 ? [...single, steps.map((step) => step.machines)] : single;
}
