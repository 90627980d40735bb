/**
 * Lays a list of tasks out in time: every machine takes its tasks in the order of the list, is set up for one when people
 * are free for it, and makes parts at its rate until the task is done. Parts flow evenly; all machines on which a task has
 * a step work on it at once. A plain rule, quick enough to be tried many thousands of times; the amounts are worked out
 * exactly afterwards.
 */
import type { JobShop } from './job-shop.js';
import { setupSpan } from './setup-clock.js';
import type { TimedSetup } from './week-layout.js';
import type { WeekSlot } from './week-slots.js';

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
  /** Places in the list of the tasks of which parts are late. */
  readonly lateTasks: readonly number[];
}

/** Seconds and parts; less is rounding. */
const SMALL = 1e-7;
/** Parts an hour where nothing limits them. */
const UNLIMITED = 1e9;

/** The shop as arrays, and the state of a list that is being laid out, which is used again for the next one. */
export class WeekRun {
  private readonly dueS: Float64Array;
  private readonly fromS: Float64Array;
  /** By job: the last window that ends in time; -1 = none does. */
  private readonly dueSlot: Int32Array;
  private readonly isDueEnd: ReadonlySet<number>;
  private readonly wanted: number;
  /** By machine: tasks in order, the place of the next of them, its number (-1 = none left) and its part there. */
  private readonly queues: readonly number[][];
  private readonly next: Int32Array;
  private readonly taskAt: Int32Array;
  private readonly partAt: Int32Array;
  /** What it is set up for, when a set-up ends and what it is for. */
  private readonly current: Int32Array;
  private readonly busyUntilS: Float64Array;
  private readonly comes: Int32Array;
  /** By machine and its part: the window in which it was set up last. */
  private readonly setUpIn: readonly Int32Array[];
  private readonly needH: Float64Array;
  private readonly rackLeft: Float64Array;
  private readonly drawn: Float64Array;
  private tasks: readonly Task[] = [];
  /** By task. */
  private left = new Float64Array(0);
  private rates = new Float64Array(0);
  /** Lists with a fixed room: no memory is asked for while a week is laid out. */
  private readonly running: Int32Array;
  private readonly wanting: Int32Array;
  private readonly wantingTask: Int32Array;
  private layout: TimedSetup[] = [];
  private weekPeopleH = 0;
  private slotPeopleH = 0;
  private inTime = 0;
  private lateParts = 0;
  private lateTasks: number[] = [];
  private setupMin = 0;
  private when = 0;

  constructor(private readonly shop: JobShop) {
    const { machines, jobs, slots } = shop.problem;
    this.dueS = Float64Array.from(jobs, (job) => job.dueMin * 60);
    this.fromS = Float64Array.from(jobs, (job) => job.notBeforeMin * 60);
    this.dueSlot = Int32Array.from(this.dueS, (due) =>
      slots.reduce((last, slot, t) => (slot.endS <= due ? t : last), -1),
    );
    this.isDueEnd = new Set(this.dueSlot);
    this.wanted = jobs.reduce((sum, job) => sum + job.quantity, 0);
    this.queues = machines.map(() => []);
    this.next = new Int32Array(machines.length);
    this.taskAt = new Int32Array(machines.length);
    this.partAt = new Int32Array(machines.length);
    this.current = new Int32Array(machines.length);
    this.busyUntilS = new Float64Array(machines.length);
    this.comes = new Int32Array(machines.length);
    this.setUpIn = machines.map((machine) => new Int32Array(machine.parts.length));
    this.running = new Int32Array(machines.length);
    this.wanting = new Int32Array(machines.length);
    this.wantingTask = new Int32Array(machines.length);
    this.needH = new Float64Array(machines.length);
    this.rackLeft = Float64Array.from(shop.racks);
    this.drawn = new Float64Array(shop.racks.length);
  }

  /**
   * @param mostLate parts that may be late
   * @returns null as soon as more of them are late
   */
  layOut(tasks: readonly Task[], mostLate = Number.POSITIVE_INFINITY): LaidOut | null {
    const { slots } = this.shop.problem;
    this.begin(tasks);
    for (let t = -1; t < slots.length; t++) {
      if (t >= 0) this.runSlot(t);
      if (this.isDueEnd.has(t)) this.countLate(t);
      if (this.lateParts > mostLate) return null;
    }
    let notMade = 0;
    for (let k = 0; k < tasks.length; k++) notMade += Math.max(0, this.left[k]!);
    const late = this.wanted - this.inTime;
    const { layout, setupMin, when, lateTasks } = this;
    return { layout, late, notMade, setupMin, when, lateTasks };
  }

  private begin(tasks: readonly Task[]): void {
    const { machines } = this.shop.problem;
    this.tasks = tasks;
    if (this.left.length < tasks.length) {
      this.left = new Float64Array(2 * tasks.length);
      this.rates = new Float64Array(2 * tasks.length);
    }
    for (let m = 0; m < machines.length; m++) {
      this.queues[m]!.length = 0;
      this.current[m] = machines[m]!.first;
      this.setUpIn[m]!.fill(-1);
    }
    this.next.fill(0);
    this.busyUntilS.fill(-1);
    this.comes.fill(-1);
    for (let k = 0; k < tasks.length; k++) {
      this.left[k] = tasks[k]!.quantity;
      for (const step of tasks[k]!.machines)
        for (const m of step) {
          const queue = this.queues[m]!;
          if (queue[queue.length - 1] !== k) queue.push(k);
        }
    }
    for (let m = 0; m < machines.length; m++) this.goOn(m);
    for (let g = 0; g < this.rackLeft.length; g++) this.rackLeft[g] = this.shop.racks[g]!;
    this.layout = [];
    this.weekPeopleH = this.shop.peopleWeekH;
    this.inTime = 0;
    this.lateParts = 0;
    this.lateTasks = [];
    this.setupMin = 0;
    this.when = 0;
  }

  /** At the end of a window: what is left of the jobs that are due then is late, whatever follows. */
  private countLate(t: number): void {
    for (let k = 0; k < this.tasks.length; k++)
      if (this.dueSlot[this.tasks[k]!.job] === t && this.left[k]! > SMALL) {
        this.lateParts += this.left[k]!;
        this.lateTasks.push(k);
      }
  }

  private runSlot(t: number): void {
    const { slots } = this.shop.problem;
    const slot = slots[t]!;
    this.slotPeopleH = slot.operatorH;
    const isAlone = slot.attendedH === 0;
    if (!isAlone || t === 0 || slots[t - 1]!.attendedH > 0)
      for (let g = 0; g < this.rackLeft.length; g++)
        this.rackLeft[g] = isAlone ? this.shop.racks[g]! : Number.POSITIVE_INFINITY;
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

  /** The machine goes on to the first of its tasks that is not done. */
  private goOn(m: number): void {
    const queue = this.queues[m]!;
    let next = this.next[m]!;
    while (next < queue.length && this.left[queue[next]!]! <= SMALL) next++;
    this.next[m] = next;
    const k = next < queue.length ? queue[next]! : -1;
    this.taskAt[m] = k;
    this.partAt[m] = k < 0 ? -1 : this.shop.parts[this.shop.routeOf[this.tasks[k]!.job]!]!.place[m]!;
  }

  /** Begins what can be begun now, first tasks of the list first. @returns when something may change by itself */
  private beginSetups(t: number, nowS: number): number {
    const { slots, machines } = this.shop.problem;
    const slot = slots[t]!;
    const { wanting, wantingTask } = this;
    let wakeS = Number.POSITIVE_INFINITY;
    let inUse = 0;
    let count = 0;
    for (let m = 0; m < machines.length; m++) {
      if (this.comes[m]! >= 0) {
        inUse += machines[m]!.people;
        wakeS = Math.min(wakeS, this.busyUntilS[m]!);
        continue;
      }
      const k = this.taskAt[m]!;
      if (k < 0 || this.partAt[m] === this.current[m]) continue;
      // Machines are few: each goes to its place among those before it.
      let at = count++;
      for (; at > 0 && wantingTask[at - 1]! > k; at--) {
        wanting[at] = wanting[at - 1]!;
        wantingTask[at] = wantingTask[at - 1]!;
      }
      wanting[at] = m;
      wantingTask[at] = k;
    }
    for (let i = 0; i < count; i++) {
      const m = wanting[i]!;
      const machine = machines[m]!;
      const to = this.partAt[m]!;
      const from = this.current[m]!;
      const minutes = machine.minutes[from + 1]![to]!;
      const peopleH = (machine.people * minutes) / 60;
      const lacks =
        inUse + machine.people > slot.people ||
        peopleH > Math.min(this.slotPeopleH, this.weekPeopleH) + SMALL;
      if ((machine.people > 0 && lacks) || this.setUpIn[m]![to] === t) continue;
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
      this.setUpIn[m]![to] = t;
      this.comes[m] = to;
      this.busyUntilS[m] = Math.max(span.endS, nowS + SMALL);
      wakeS = Math.min(wakeS, this.busyUntilS[m]!);
    }
    return wakeS;
  }

  /** Parts are made until something changes. @returns when */
  private flow(t: number, nowS: number, untilS: number): number {
    const { shop, tasks, left, rates, running, drawn } = this;
    const { problem } = shop;
    const slot = problem.slots[t]!;
    let count = 0;
    let stands = false;
    for (let m = 0; m < this.comes.length; m++) {
      if (this.comes[m]! >= 0) {
        stands = problem.robotStands;
        continue;
      }
      const k = this.taskAt[m]!;
      if (k < 0 || this.partAt[m] !== this.current[m]) continue;
      let i = 0;
      while (i < count && running[i] !== k) i++;
      if (i === count) running[count++] = k;
    }
    let robot = 0;
    for (let i = 0; i < count; i++) {
      const k = running[i]!;
      rates[k] = stands ? 0 : this.startedPerH(k, slot);
      robot += rates[k]! * shop.parts[shop.routeOf[tasks[k]!.job]!]!.robotH;
    }
    const slow = robot > problem.hoursShare ? problem.hoursShare / robot : 1;
    let hours = (untilS - nowS) / 3600;
    drawn.fill(0);
    for (let i = 0; i < count; i++) {
      const k = running[i]!;
      rates[k]! *= slow;
      if (rates[k]! <= 0) continue;
      const part = shop.parts[shop.routeOf[tasks[k]!.job]!]!;
      hours = Math.min(hours, left[k]! / (rates[k]! * part.good));
      for (const g of part.racks) drawn[g]! += rates[k]!;
    }
    for (let g = 0; g < drawn.length; g++)
      if (drawn[g]! > 0) hours = Math.min(hours, this.rackLeft[g]! / drawn[g]!);
    for (let g = 0; g < drawn.length; g++) {
      const rest = this.rackLeft[g]! - drawn[g]! * hours;
      this.rackLeft[g] = rest < SMALL ? 0 : rest;
    }
    for (let i = 0; i < count; i++) {
      const k = running[i]!;
      if (rates[k]! <= 0) continue;
      const { job } = tasks[k]!;
      const made = Math.min(left[k]!, rates[k]! * shop.parts[shop.routeOf[job]!]!.good * hours);
      left[k]! -= made;
      if (left[k]! <= SMALL) {
        left[k] = 0;
        for (const step of tasks[k]!.machines) for (const m of step) this.goOn(m);
      }
      if (slot.endS <= this.dueS[job]!) this.inTime += made;
      this.when += made * t;
    }
    return Math.max(nowS + hours * 3600, nowS + SMALL);
  }

  /** Started parts an hour of a task with the machines that are set up for it now; 0 where it cannot run. */
  private startedPerH(k: number, { startS, attendedH }: WeekSlot): number {
    const { shop, needH } = this;
    const task = this.tasks[k]!;
    const part = shop.parts[shop.routeOf[task.job]!]!;
    if (part.good <= 0 || startS < this.fromS[task.job]!) return 0;
    if (part.attendedOnly && attendedH === 0) return 0;
    for (const g of part.racks) if (this.rackLeft[g]! <= 0) return 0;
    const isOneStep = part.steps.length === 1;
    if (!isOneStep) needH.fill(0);
    let sum = 0;
    for (let s = 0; s < part.steps.length; s++) {
      const step = part.steps[s]!;
      const isReady = (m: number): boolean =>
        this.comes[m]! < 0 && this.taskAt[m] === k && this.current[m] === part.place[m];
      let ready = 0;
      for (const m of task.machines[s]!) if (isReady(m)) ready++;
      if (ready === 0) return 0;
      sum = 0;
      for (const m of task.machines[s]!) {
        if (!isReady(m)) continue;
        const hours = step.hours[step.machines.indexOf(m)]!;
        sum += hours > 0 ? shop.perClockH[m]! / hours : UNLIMITED;
        needH[m]! += hours / ready;
      }
    }
    if (isOneStep) return sum;
    let least = part.steps.length === 0 ? UNLIMITED : Number.POSITIVE_INFINITY;
    for (let m = 0; m < needH.length; m++)
      if (needH[m]! > 0) least = Math.min(least, shop.perClockH[m]! / needH[m]!);
    return Number.isFinite(least) ? least : UNLIMITED;
  }
}
