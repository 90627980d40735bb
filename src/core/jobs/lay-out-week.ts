/**
 * Lays a list of tasks out in time: every machine takes its tasks in the order of the list, is set up for one when people
 * are free for it, and makes parts at its rate until the task is done. Parts flow evenly; all machines on which a task has
 * a step work on it at once. A plain rule, quick enough to be tried thousands of times; the amounts are worked out exactly
 * afterwards.
 */
import type { JobShop } from './job-shop.js';
import { setupSpan } from './setup-clock.js';
import type { TimedSetup } from './week-layout.js';

/** Parts of a job made together on some machines. */
export interface Task {
  readonly job: number;
  /** Good parts. */
  readonly quantity: number;
  /** For each step of the route that needs machines, those that take part. */
  readonly machines: readonly (readonly number[])[];
}

export interface LaidOut {
  readonly layout: readonly TimedSetup[];
  readonly late: number;
  readonly notMade: number;
  readonly setupMin: number;
  /** Sum of the windows' numbers over the good parts: less is earlier. */
  readonly when: number;
}

/** Seconds and parts; less is rounding. */
const SMALL = 1e-7;

export function layOutWeek(shop: JobShop, tasks: readonly Task[]): LaidOut {
  return new WeekRun(shop, tasks).run();
}

class WeekRun {
  private readonly layout: TimedSetup[] = [];
  private readonly left: number[];
  private readonly queues: number[][];
  private readonly next: number[];
  private readonly current: number[];
  /** End of the set-up that a machine is in, and the part that it is for. */
  private readonly busyUntilS: number[];
  private readonly comes: number[];
  private readonly rackLeft: number[];
  private readonly setUpHere: number[][];
  private weekPeopleH: number;
  private slotPeopleH = 0;
  private inTime = 0;
  private setupMin = 0;
  private when = 0;

  constructor(
    private readonly shop: JobShop,
    private readonly tasks: readonly Task[],
  ) {
    const { machines } = shop.problem;
    this.left = tasks.map((task) => task.quantity);
    this.queues = machines.map(() => []);
    for (const [k, task] of tasks.entries())
      for (const m of new Set(task.machines.flat())) this.queues[m]!.push(k);
    this.next = machines.map(() => 0);
    this.current = machines.map((machine) => machine.first);
    this.busyUntilS = machines.map(() => -1);
    this.comes = machines.map(() => -1);
    this.rackLeft = [...shop.racks];
    this.setUpHere = machines.map(() => []);
    this.weekPeopleH = shop.peopleWeekH;
  }

  run(): LaidOut {
    const { slots, jobs } = this.shop.problem;
    for (const t of slots.keys()) this.runSlot(t);
    const wanted = jobs.reduce((sum, job) => sum + job.quantity, 0);
    const notMade = this.left.reduce((sum, parts) => sum + Math.max(0, parts), 0);
    return {
      layout: this.layout,
      late: wanted - this.inTime,
      notMade,
      setupMin: this.setupMin,
      when: this.when,
    };
  }

  private runSlot(t: number): void {
    const { slots } = this.shop.problem;
    const slot = slots[t]!;
    this.slotPeopleH = slot.operatorH;
    for (const list of this.setUpHere) list.length = 0;
    const isAlone = slot.attendedH === 0;
    if (!isAlone || t === 0 || slots[t - 1]!.attendedH > 0)
      for (const [g, capacity] of this.shop.racks.entries())
        this.rackLeft[g] = isAlone ? capacity : Number.POSITIVE_INFINITY;
    for (let nowS = slot.startS; nowS < slot.endS - SMALL; ) {
      this.endSetups(nowS);
      const wakeS = this.beginSetups(t, nowS);
      nowS = this.flow(t, nowS, Math.min(slot.endS, wakeS));
    }
    this.endSetups(slot.endS);
  }

  private endSetups(nowS: number): void {
    for (let m = 0; m < this.comes.length; m++)
      if (this.comes[m]! >= 0 && this.busyUntilS[m]! <= nowS + SMALL) {
        this.current[m] = this.comes[m]!;
        this.comes[m] = -1;
      }
  }

  /** The task that a machine is to work on; -1 where it has done all of its own. */
  private taskAt(m: number): number {
    const queue = this.queues[m]!;
    while (this.next[m]! < queue.length && this.left[queue[this.next[m]!]!]! <= SMALL) this.next[m]!++;
    return queue[this.next[m]!] ?? -1;
  }

  /** Begins what can be begun now, first tasks of the list first. @returns when something may change by itself */
  private beginSetups(t: number, nowS: number): number {
    const { shop, tasks } = this;
    const { slots, machines } = shop.problem;
    const slot = slots[t]!;
    let wakeS = Number.POSITIVE_INFINITY;
    let inUse = 0;
    const wanting: number[] = [];
    for (let m = 0; m < machines.length; m++) {
      if (this.comes[m]! >= 0) {
        inUse += machines[m]!.people;
        wakeS = Math.min(wakeS, this.busyUntilS[m]!);
        continue;
      }
      const k = this.taskAt(m);
      if (k < 0) continue;
      if (shop.parts[shop.routeOf[tasks[k]!.job]!]!.place[m] !== this.current[m]) wanting.push(m);
    }
    wanting.sort((a, b) => this.taskAt(a) - this.taskAt(b) || a - b);
    for (const m of wanting) {
      const machine = machines[m]!;
      const to = shop.parts[shop.routeOf[tasks[this.taskAt(m)]!.job]!]!.place[m]!;
      const from = this.current[m]!;
      const minutes = machine.minutes[from + 1]![to]!;
      const peopleH = (machine.people * minutes) / 60;
      const lacks =
        inUse + machine.people > slot.people ||
        peopleH > Math.min(this.slotPeopleH, this.weekPeopleH) + SMALL;
      if (this.setUpHere[m]!.includes(to) || (machine.people > 0 && lacks)) continue;
      const span = setupSpan(slot, machine, minutes, nowS, from < 0);
      if (span === null) continue;
      if (span.startS > nowS + SMALL) {
        wakeS = Math.min(wakeS, span.startS);
        continue;
      }
      this.layout.push({ ...span, slot: t, m, from, to });
      this.setupMin += minutes;
      this.slotPeopleH -= peopleH;
      this.weekPeopleH -= peopleH;
      inUse += machine.people;
      this.setUpHere[m]!.push(to);
      this.comes[m] = to;
      this.busyUntilS[m] = Math.max(span.endS, nowS + SMALL);
      wakeS = Math.min(wakeS, this.busyUntilS[m]!);
    }
    return wakeS;
  }

  /** Parts are made until something changes. @returns when */
  private flow(t: number, nowS: number, untilS: number): number {
    const { shop, tasks, left } = this;
    const { problem } = shop;
    const slot = problem.slots[t]!;
    const running: number[] = [];
    for (let m = 0; m < this.comes.length; m++) {
      if (this.comes[m]! >= 0) continue;
      const k = this.taskAt(m);
      if (k < 0 || running.includes(k)) continue;
      if (shop.parts[shop.routeOf[tasks[k]!.job]!]!.place[m] === this.current[m]) running.push(k);
    }
    const stands = problem.robotStands && this.comes.some((p) => p >= 0);
    const rates = running.map((k) => (stands ? 0 : this.startedPerH(k, slot.startS)));
    let robot = 0;
    for (const [i, k] of running.entries())
      robot += rates[i]! * shop.parts[shop.routeOf[tasks[k]!.job]!]!.robotH;
    const slow = robot > problem.hoursShare ? problem.hoursShare / robot : 1;
    let hours = (untilS - nowS) / 3600;
    const drawn = new Float64Array(this.rackLeft.length);
    for (const [i, k] of running.entries()) {
      rates[i]! *= slow;
      if (rates[i]! <= 0) continue;
      const part = shop.parts[shop.routeOf[tasks[k]!.job]!]!;
      hours = Math.min(hours, left[k]! / (rates[i]! * part.good));
      for (const g of part.racks) drawn[g]! += rates[i]!;
    }
    for (let g = 0; g < drawn.length; g++)
      if (drawn[g]! > 0) hours = Math.min(hours, this.rackLeft[g]! / drawn[g]!);
    for (let g = 0; g < drawn.length; g++) {
      const rest = this.rackLeft[g]! - drawn[g]! * hours;
      this.rackLeft[g] = rest < SMALL ? 0 : rest;
    }
    for (const [i, k] of running.entries()) {
      if (rates[i]! <= 0) continue;
      const job = problem.jobs[tasks[k]!.job]!;
      const made = Math.min(left[k]!, rates[i]! * shop.parts[shop.routeOf[tasks[k]!.job]!]!.good * hours);
      left[k]! -= made;
      if (left[k]! < SMALL) left[k] = 0;
      if (slot.endS <= job.dueMin * 60) this.inTime += made;
      this.when += made * t;
    }
    return Math.max(nowS + hours * 3600, nowS + SMALL);
  }

  /** Started parts an hour of a task with the machines that are set up for it now; 0 where it cannot run. */
  private startedPerH(k: number, startS: number): number {
    const { shop } = this;
    const task = this.tasks[k]!;
    const part = shop.parts[shop.routeOf[task.job]!]!;
    if (part.good <= 0 || startS < shop.problem.jobs[task.job]!.notBeforeMin * 60) return 0;
    for (const g of part.racks) if (this.rackLeft[g]! <= 0) return 0;
    const need = new Map<number, number>();
    let sum = 0;
    for (const [s, step] of part.steps.entries()) {
      const ready = task.machines[s]!.filter(
        (m) => this.comes[m]! < 0 && this.taskAt(m) === k && this.current[m] === part.place[m],
      );
      if (ready.length === 0) return 0;
      sum = 0;
      for (const m of ready) {
        const hours = step.hours[step.machines.indexOf(m)]!;
        sum += hours > 0 ? shop.perClockH[m]! / hours : 1e9;
        need.set(m, (need.get(m) ?? 0) + hours / ready.length);
      }
    }
    if (part.steps.length === 1) return sum;
    let least = part.steps.length === 0 ? 1e9 : Number.POSITIVE_INFINITY;
    for (const [m, hours] of need) if (hours > 0) least = Math.min(least, shop.perClockH[m]! / hours);
    return Number.isFinite(least) ? least : 1e9;
  }
}
