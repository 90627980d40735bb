/**
 * One more machine like one that the cell has: which of them may bring something, by the rate bound of the larger cell.
 * It costs little, and a machine that the bound sees no gain in brings none.
 */

import type { Cell } from '../model/cell.js';
import { type RateBoundFound, rateBound } from '../schedule/bound/rate-bound.js';
import { goalOf } from '../schedule/plan/weights.js';
import { copiedMachine, originalOf } from './copied-machine.js';

/** A cell of a certain size. */
export interface Stage {
  readonly machines: readonly string[];
  readonly cell: Cell;
}

/** Kinds of machine that are tried each time, the most promising first. */
const MOST_KINDS = 4;
/** A gain below this share is none. */
const NO_GAIN = 1e-6;

export function likelyCopies(stage: Stage): Stage[] {
  const goal = goalOf(stage.cell);
  const now = rateBound(stage.cell, goal);
  if (!now.found) return [];
  const found = kindsOf(stage).flatMap((name) => {
    const { cell, copy } = copiedMachine(stage.cell, name);
    const bound = rateBound(cell, goal);
    if (!bound.found) return [];
    const costPerS = (cell.stations.find((s) => s.name === copy)?.costPerH ?? 0) / 3600;
    const gain = bound.valuePerS - now.valuePerS;
    const net = gain - (goal.basis === 'contribution' ? costPerS : 0);
    return [{ name, gain, net, stage: { cell, machines: [...stage.machines, copy] } }];
  });
  const gaining = found
    .filter(({ gain }) => gain > NO_GAIN * now.valuePerS)
    .sort((a, b) => b.net - a.net)
    .slice(0, MOST_KINDS);
  if (gaining.length > 0) return gaining.map((one) => one.stage);
  return together(found, now).map((one) => one.stage);
}

/** Machines that limit together bring nothing alone: the first of them, so that the others can follow. */
function together<T extends { readonly name: string }>(found: readonly T[], { goal }: RateBoundFound): T[] {
  if (goal.binding.includes('robot')) return [];
  const binding = found.filter(({ name }) => goal.binding.some((at) => originalOf(at) === originalOf(name)));
  return binding.length > 1 ? binding.slice(0, 1) : [];
}

/** One machine for each kind: those that do the same steps in the same times count as one. */
function kindsOf({ cell, machines }: Stage): string[] {
  const kinds = new Map<string, string>();
  for (const name of machines) {
    const { xM, yM, name: _, ...station } = cell.stations.find((s) => s.name === name)!;
    const steps = cell.routes.map((route) =>
      route.steps.flatMap((step, i) => (step.stations.includes(name) ? [i] : [])),
    );
    const key = JSON.stringify([station, steps]);
    if (!kinds.has(key)) kinds.set(key, name);
  }
  return [...kinds.values()];
}
