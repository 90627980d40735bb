/**
 * Finds a good list of tasks: lists by due time and by part, plain ones and ones made job by job, the best of them changed
 * at random in small steps for a fixed number of trials, with the same random numbers every time. Half of the changes are
 * at a task that is late.
 * Source: late acceptance hill climbing (Burke & Bykov 2017): a change is kept where it is no worse than the list of some
 * trials ago.
 */
import { nextUniform, streamState } from '../statistics/random-streams.js';
import { insertedTasks } from './inserted-tasks.js';
import { leastMinutesOnto } from './job-problem.js';
import type { JobShop } from './job-shop.js';
import { type LaidOut, type Task, WeekRun } from './lay-out-week.js';

const HISTORY = 40;
/** Pieces that jobs may be split into, for each job. */
const PIECES = 2;

/**
 * @param trials most lists that are laid out
 * @param isOver true where the time that the user gave is over
 */
export function improveTasks(shop: JobShop, trials: number, isOver: () => boolean): LaidOut {
  const run = new WeekRun(shop);
  const orders = jobOrders(shop);
  const inserted = orders.map((order) => insertedTasks(shop, run, order, costOf, isOver));
  // Each job on one machine a step, and on all that can make it.
  const plain = orders.flatMap((order) => [assigned(shop, order, false), assigned(shop, order, true)]);
  const starts = [...plain, ...inserted].map((tasks) => ({
    tasks,
    laid: run.layOut(tasks)!,
  }));
  let best = starts.reduce((a, b) => (costOf(b.laid) < costOf(a.laid) ? b : a));
  let now = best;
  const floorMin = leastSetupMin(shop);
  const random = generator();
  const history = Array.from({ length: HISTORY }, () => costOf(now.laid));
  let tried = starts.length;
  let lastBest = 0;
  for (let i = 0; tried < trials && !isOver(); i++, tried++) {
    const { late, setupMin } = best.laid;
    if (late < 1e-6 && setupMin <= floorMin + 1e-6) break;
    if (i - lastBest > trials / 4) {
      now = best;
      lastBest = i;
    }
    const { lateTasks } = now.laid;
    const isOfLate = lateTasks.length > 0 && random(2) === 0;
    const at = isOfLate ? lateTasks[random(lateTasks.length)]! : random(now.tasks.length);
    const tasks = changed(shop, now.tasks, at, random);
    // One that is kept is no worse than this; late parts count more than all else, so with more of them it is not laid out.
    const most = Math.max(history[i % HISTORY]!, costOf(now.laid));
    const laid = run.layOut(tasks, most);
    const cost = laid === null ? Number.POSITIVE_INFINITY : costOf(laid);
    if (laid !== null && cost <= most) now = { tasks, laid };
    history[i % HISTORY] = costOf(now.laid);
    if (laid !== null && cost < costOf(best.laid) - 1e-9) {
      best = { tasks, laid };
      lastBest = i;
    }
  }
  return best.laid;
}

/** Goals in their order, as one figure: each counts far less than the one before. */
function costOf({ late, notMade, setupMin, when }: LaidOut): number {
  return late + 1e-2 * notMade + 1e-4 * setupMin + 1e-9 * when;
}

/** No plan that makes all parts needs fewer set-up minutes: each part is set up once for each of its steps. */
export function leastSetupMin({ problem, parts, routeOf }: JobShop): number {
  return [...new Set(routeOf)].reduce((total, r) => {
    const { steps, place } = parts[r]!;
    const machines = steps.map((step) => step.machines);
    const sets = machines.filter(
      (list, s) => !machines.slice(0, s).some((o) => o.some((m) => list.includes(m))),
    );
    return (
      total +
      sets.reduce((sum, list) => {
        const least = list.map((m) => {
          const machine = problem.machines[m]!;
          return machine.first === place[m] ? 0 : leastMinutesOnto(machine, place[m]!);
        });
        return sum + Math.min(...least);
      }, 0)
    );
  }, 0);
}

type Random = (below: number) => number;

function generator(): Random {
  const states = Int32Array.from(streamState(1, 'job plan', 0));
  return (below) => Math.floor(nextUniform(states, 0) * below);
}

/** By due time; by part, the part that is due first first. */
function jobOrders(shop: JobShop): number[][] {
  const { jobs } = shop.problem;
  const byDue = [...jobs.keys()].sort(
    (a, b) =>
      jobs[a]!.dueMin - jobs[b]!.dueMin ||
      jobs[a]!.notBeforeMin - jobs[b]!.notBeforeMin ||
      shop.routeOf[a]! - shop.routeOf[b]! ||
      a - b,
  );
  const firstOf = new Map<number, number>();
  for (const [rank, j] of byDue.entries())
    if (!firstOf.has(shop.routeOf[j]!)) firstOf.set(shop.routeOf[j]!, rank);
  const rank = new Map(byDue.map((j, at) => [j, at]));
  const byPart = [...byDue].sort(
    (a, b) => firstOf.get(shop.routeOf[a]!)! - firstOf.get(shop.routeOf[b]!)! || rank.get(a)! - rank.get(b)!,
  );
  return [byDue, byPart];
}

/** Each job goes where it ends first, counted by hours alone; where its part is set up last costs no set-up. */
function assigned(shop: JobShop, order: readonly number[], onAll: boolean): Task[] {
  const { problem, parts, routeOf, perClockH } = shop;
  const loadH = problem.machines.map(() => 0);
  const last = problem.machines.map((machine) => machine.first);
  return order.map((job) => {
    const part = parts[routeOf[job]!]!;
    const { quantity } = problem.jobs[job]!;
    const machines = part.steps.map((step) => {
      if (onAll) return step.machines;
      const endH = step.machines.map((m, i) => {
        const setupH =
          last[m] === part.place[m] ? 0 : problem.machines[m]!.minutes[last[m]! + 1]![part.place[m]!]! / 60;
        const workH =
          (quantity / Math.max(part.good, 1e-6)) * (step.hours[i]! / Math.max(perClockH[m]!, 1e-9));
        return loadH[m]! + setupH + workH;
      });
      const i = endH.indexOf(Math.min(...endH));
      const m = step.machines[i]!;
      loadH[m] = endH[i]!;
      last[m] = part.place[m]!;
      return [m];
    });
    return { job, quantity, machines };
  });
}

/** A small change at one task. */
function changed(shop: JobShop, tasks: readonly Task[], i: number, random: Random): Task[] {
  const kind = random(10);
  if (kind < 3) return moved(tasks, i, random(tasks.length));
  if (kind < 5) return movedToLike(shop, tasks, i, random);
  if (kind < 6) return swapped(tasks, i, random(tasks.length));
  if (kind < 8) return onOtherMachines(shop, tasks, i, random);
  if (kind < 9) return split(shop, tasks, i, random);
  return merged(tasks, i);
}

function moved(tasks: readonly Task[], from: number, to: number): Task[] {
  const list = [...tasks];
  const [task] = list.splice(from, 1);
  list.splice(to, 0, task!);
  return list;
}

/** Beside a task of the same part, so that they share a set-up; on the same machines half of the time. */
function movedToLike(shop: JobShop, tasks: readonly Task[], i: number, random: Random): Task[] {
  const route = shop.routeOf[tasks[i]!.job];
  const like = tasks.flatMap((task, k) => (k !== i && shop.routeOf[task.job] === route ? [k] : []));
  if (like.length === 0) return moved(tasks, i, random(tasks.length));
  const k = like[random(like.length)]!;
  const list = moved(tasks, i, i < k ? k - 1 + random(2) : k + random(2));
  const { machines } = tasks[k]!;
  return random(2) === 0 ? list.map((task) => (task === tasks[i] ? { ...task, machines } : task)) : list;
}

function swapped(tasks: readonly Task[], i: number, k: number): Task[] {
  const list = [...tasks];
  [list[i], list[k]] = [list[k]!, list[i]!];
  return list;
}

function onOtherMachines(shop: JobShop, tasks: readonly Task[], i: number, random: Random): Task[] {
  const task = tasks[i]!;
  const machines = otherMachines(shop, task, random);
  return tasks.map((other) => (other === task ? { ...task, machines } : other));
}

/** At one step another machine, one more, or one less. */
function otherMachines(shop: JobShop, task: Task, random: Random): Task['machines'] {
  const { steps } = shop.parts[shop.routeOf[task.job]!]!;
  const open = steps.flatMap((step, s) => (step.machines.length > 1 ? [s] : []));
  if (open.length === 0) return task.machines;
  const s = open[random(open.length)]!;
  const now = task.machines[s]!;
  const others = steps[s]!.machines.filter((m) => !now.includes(m));
  const kind = random(3);
  let list: readonly number[] = now;
  if (kind === 0 && now.length > 1) list = now.filter((_, k) => k !== random(now.length) || false);
  else if (kind === 1 && others.length > 0) list = [...now, others[random(others.length)]!];
  else if (others.length > 0) list = [others[random(others.length)]!];
  return task.machines.map((own, k) => (k === s && list.length > 0 ? list : own));
}

function split(shop: JobShop, tasks: readonly Task[], i: number, random: Random): Task[] {
  const task = tasks[i]!;
  if (tasks.length >= PIECES * shop.problem.jobs.length + 2 || task.quantity < 2) return [...tasks];
  const first = 1 + random(task.quantity - 1);
  const rest = { ...task, quantity: task.quantity - first, machines: otherMachines(shop, task, random) };
  const list: Task[] = tasks.map((other) => (other === task ? { ...task, quantity: first } : other));
  list.splice(random(list.length + 1), 0, rest);
  return list;
}

/** Two pieces of a job become one. */
function merged(tasks: readonly Task[], i: number): Task[] {
  const task = tasks[i]!;
  const other = tasks.find((t) => t !== task && t.job === task.job);
  if (other === undefined) return swapped(tasks, i, Math.max(0, i - 1));
  return tasks.flatMap((t) =>
    t === other ? [] : t === task ? [{ ...task, quantity: task.quantity + other.quantity }] : [t],
  );
}
