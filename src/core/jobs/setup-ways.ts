/** How the robot's signals come to each machine at a set-up, and the minutes of that: as the cost case decides, or as asked. */

import type { Way } from '../cost/plan-flows.js';
import { readCase } from '../cost/read-case.js';
import type { CostCaseFound } from '../cost/result.js';
import { connectingMinutes, type WayMinutes } from '../cost/way-minutes.js';
import type { Cell } from '../model/cell.js';

/** What is asked for a machine: `case` follows the decision of the cost case. */
export type AskedWay = 'case' | 'harness' | 'box';

/**
 * @param found the cost case of the cell
 * @param asked by machine; machines that are not named follow `otherwise`
 * @returns ways by machine, for the machines of changeovers.csv; the minutes are those of the cost case
 */
export function setupWays(
  cell: Cell,
  found: Pick<CostCaseFound, 'alternatives' | 'decision'>,
  asked: Readonly<Record<string, AskedWay>>,
  otherwise: AskedWay,
): Readonly<Record<string, WayMinutes>> {
  const inputs = readCase(cell, null, null);
  const chosen = found.alternatives.find((way) => way.name === found.decision);
  const ways = inputs.stations.map(({ station }): Way => {
    const wish = asked[station] ?? otherwise;
    if (wish === 'case') return chosen?.ways[station] ?? 'harness';
    return wish === 'box' ? 'own box' : 'harness';
  });
  return connectingMinutes(inputs, ways);
}
