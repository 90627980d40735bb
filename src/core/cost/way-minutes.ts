/** How the robot's signals come to a machine at a changeover, and the minutes of that. */
import type { Cell } from '../model/cell.js';
import { harnessMinutes } from './changeover-minutes.js';
import { harnessMoves } from './harness-moves.js';
import { caseNumbers, signalCount } from './read-case.js';

export type SetupWay = 'harness' | 'box' | 'left out';

/** Minutes that one way takes at a machine, beside the set-up itself. */
export interface WayMinutes {
  readonly way: SetupWay;
  readonly minutes: number;
}

/**
 * The minutes of moving the harness to each machine of changeovers.csv, from the same sum as the cost case: the mean of
 * its changeovers, since a harness that is still there is not moved.
 *
 * @returns by machine; empty where costs.csv does not say what a move takes
 */
export function harnessWays(
  cell: Pick<Cell, 'changeovers' | 'costs' | 'signals'>,
): Record<string, WayMinutes> {
  const numbers = caseNumbers(cell.costs);
  if (numbers.harness_connectors === null || numbers.harness_min_per_connector === null) return {};
  const counts = cell.changeovers.map((row) => row.perYear);
  const moves = harnessMoves(counts, numbers.harness_elsewhere_per_year ?? 0);
  return Object.fromEntries(
    cell.changeovers.map(({ station, perYear }, k) => {
      const move = harnessMinutes({ numbers }, { signals: signalCount(cell, station) });
      return [station, { way: 'harness' as const, minutes: perYear > 0 ? (move * moves[k]!) / perYear : 0 }];
    }),
  );
}
