/** Gives the set-ups of a program's answer their moments: in each window, machine after machine, as people come free. */
import { valueAt } from '../lp/terms.js';
import { type JobFrame, partTerms } from './job-frame.js';
import { type JobProblem, setupPeopleH } from './job-problem.js';
import type { Walk } from './job-program.js';
import type { At } from './made-amounts.js';

import { setupSpan } from './setup-clock.js';
import type { TimedSetup } from './week-layout.js';

/** What comes first where several machines want to be set up: the first that is ready, or the one with most to do after. */
export type WalkRule = 'ready first' | 'most work first';

/** @returns the set-ups that fit; one that does not is left out, and the walk goes on without it */
export function layOutWalks(
  problem: JobProblem,
  frame: JobFrame,
  walks: readonly Walk[],
  at: At,
  rule: WalkRule,
): TimedSetup[] {
  const layout: TimedSetup[] = [];
  const current = problem.machines.map((machine) => machine.first);
  for (const [t, slot] of problem.slots.entries()) {
    const hours = clockHours(problem, frame, t, at);
    const own = problem.machines.map((_, m) => {
      const walk = walks.find((w) => w.slot === t && w.m === m);
      const to = walk?.to ?? [];
      const again = to.includes(current[m]!);
      return { to: [...to], readyS: slot.startS + (again ? 0 : hours(m, current[m]!) * 3600) };
    });
    const busy: TimedSetup[] = [];
    for (;;) {
      const open = own.flatMap((queue, m) => {
        while (queue.to[0] === current[m]) queue.to.shift();
        const to = queue.to[0];
        if (to === undefined) return [];
        const span = spanOf(problem, t, m, current[m]!, to, queue.readyS, busy);
        const afterS = queue.to.reduce((sum, p) => sum + hours(m, p) * 3600, 0);
        return [{ m, to, span, afterS }];
      });
      if (open.length === 0) break;
      const lost = open.find(({ span }) => span === null);
      if (lost) {
        // Where it fits no more, it may still fit in place of parts before it.
        const queue = own[lost.m]!;
        const early = spanOf(problem, t, lost.m, current[lost.m]!, lost.to, slot.startS, busy);
        const last = layout.filter((s) => s.m === lost.m && s.slot === t).at(-1);
        if (early !== null && queue.readyS > early.startS && early.startS >= (last?.endS ?? slot.startS))
          queue.readyS = early.startS;
        else queue.to.shift();
        continue;
      }
      const first = open.reduce((a, b) => {
        const [x, y] = [a.span!.startS, b.span!.startS];
        if (rule === 'most work first' && x === y) return b.afterS > a.afterS ? b : a;
        return y < x ? b : a;
      });
      const setup: TimedSetup = {
        ...first.span!,
        slot: t,
        m: first.m,
        from: current[first.m]!,
        to: first.to,
      };
      layout.push(setup);
      busy.push(setup);
      current[first.m] = first.to;
      const queue = own[first.m]!;
      queue.to.shift();
      queue.readyS = setup.endS + hours(first.m, first.to) * 3600;
    }
  }
  return layout;
}

/** Hours by the clock that a machine takes for what an answer makes of a part in a window. */
function clockHours(
  problem: JobProblem,
  frame: JobFrame,
  t: number,
  at: At,
): (m: number, p: number) => number {
  return (m, p) => {
    const machine = problem.machines[m]!;
    const row = frame.hours.find(({ slot, resource }) => slot === t && resource === machine.station);
    if (row === undefined || p < 0 || row.perClockH <= 0) return 0;
    const route = problem.cell.routes.findIndex((r) => r.part === machine.parts[p]);
    return valueAt(partTerms(frame.legs, row, route), at) / row.perClockH;
  };
}

/** The earliest time from `readyS` on at which the people are free through all of the set-up. */
function spanOf(
  problem: JobProblem,
  t: number,
  m: number,
  from: number,
  to: number,
  readyS: number,
  busy: readonly TimedSetup[],
): ReturnType<typeof setupSpan> {
  const [slot, machine] = [problem.slots[t]!, problem.machines[m]!];
  const minutes = machine.minutes[from + 1]![to]!;
  if (machine.people > slot.people) return null;
  const usedH = busy.reduce((sum, setup) => sum + setupPeopleH(problem, setup), 0);
  if (machine.people > 0 && usedH + (machine.people * minutes) / 60 > slot.operatorH + 1e-7) return null;
  const moments = [readyS, ...busy.map((s) => s.endS).filter((endS) => endS > readyS)].sort((a, b) => a - b);
  for (const atS of moments) {
    const span = setupSpan(slot, machine, minutes, atS, from < 0);
    if (span === null) return null;
    if (machine.people === 0) return span;
    // Those in use can only be most where one begins, or at the start.
    const starts = [span.startS, ...busy.map((s) => s.startS)].filter(
      (s) => s >= span.startS && (s < span.endS || s === span.startS),
    );
    const most = Math.max(
      ...starts.map((s) =>
        busy
          .filter((other) => other.startS <= s && other.endS > s + 1e-6)
          .reduce((sum, other) => sum + problem.machines[other.m]!.people, 0),
      ),
    );
    if (most + machine.people <= slot.people) return span;
  }
  return null;
}
