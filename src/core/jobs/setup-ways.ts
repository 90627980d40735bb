/** How the robot's signals come to each machine at a set-up, and the minutes of that: as the cost case decides, or as asked. */
import type { CostCaseFound } from '../cost/result.js';
import type { WayMinutes } from '../cost/way-minutes.js';

/** What is asked for a machine: `case` follows the decision of the cost case. */
export type AskedWay = 'case' | 'harness' | 'box';

/**
 * @param found the cost case of the cell
 * @param asked by machine; machines that are not named follow `otherwise`
 * @returns ways by machine, for the machines of changeovers.csv
 */
export function setupWays(
  found: CostCaseFound,
  asked: Readonly<Record<string, AskedWay>>,
  otherwise: AskedWay,
): Record<string, WayMinutes> {
  const chosen = found.alternatives.find((way) => way.name === found.decision);
  return Object.fromEntries(
    found.byStation.map(({ station, harnessMin, boxMin }) => {
      const wish = asked[station] ?? otherwise;
      const isBox = wish === 'case' ? chosen?.stations.includes(station) === true : wish === 'box';
      return [
        station,
        isBox ? { way: 'box' as const, minutes: boxMin } : { way: 'harness' as const, minutes: harnessMin },
      ];
    }),
  );
}
