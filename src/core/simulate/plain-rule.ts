/**
 * A plain dispatch rule held against a repeating order, without chance: constant times, no stops, racks that never run
 * out, no scrap. Robots that answer calls in a plain order lose what a planned round would not.
 */

import type { CallRule } from '../model/call-rules.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { simulateCell } from './simulate-cell.js';
import { meansOf, mixDiffers } from './study-cell.js';

export interface PlainRule {
  readonly rule: CallRule;
  /** Parts per hour of the rule, all parts together; 0 where it locks the cell up. */
  readonly partsPerH: number;
  /** What the rule loses against the order, per cent of the order's rate; below 0 where it makes more. */
  readonly lossPct: number;
  /** The parts come in another proportion than in the order: the two rates are then not of like with like. */
  readonly mixDiffers: boolean;
  /** Hours that were counted. */
  readonly hours: number;
  /** Who waits for whom, where the rule locks the cell up. */
  readonly deadlock: string | null;
}

/** Rounds that are counted at least, so that a part begun or left at the edges weighs little. */
const ROUNDS = 2000;

/** @param order the repeating order that the rule is held against */
export async function plainRule(cell: Cell, rule: CallRule, order: ScheduleFound): Promise<PlainRule> {
  const hours = Math.min(1e6, Math.max(40, (ROUNDS * order.periodS) / 3600));
  const run = await simulateCell(withoutChance(cell), {
    program: rule,
    hours,
    replications: 1,
    losses: false,
  });
  const made = run.deadlock === null ? run.partsPerShift.total!.mean * run.shifts : 0;
  const partsPerH = made / run.horizonH;
  return {
    rule,
    partsPerH,
    lossPct: 100 * (1 - partsPerH / order.partsPerH.total!),
    mixDiffers: made > 0 && mixDiffers(meansOf(run), order.partsPerH),
    hours: run.horizonH,
    deadlock: run.deadlock,
  };
}

function withoutChance(cell: Cell): Cell {
  return {
    ...cell,
    variation: [],
    stops: [],
    parts: cell.parts.map((p) => ({ ...p, yieldPct: 100 })),
    stations: cell.stations.map((s) => ({
      ...s,
      mtbfH: null,
      mttrMin: null,
      capacityParts: s.kind === 'infeed' || s.kind === 'outfeed' ? null : s.capacityParts,
    })),
  };
}
