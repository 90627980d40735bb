/** How the robot's signals come to a machine at a changeover, and the minutes of that. */
import type { Cell } from '../model/cell.js';
import { type CaseInputs, num } from './case-inputs.js';
import { boxMinutes, connectionMinutes, harnessMinutes } from './changeover-minutes.js';
import { harnessMoves } from './harness-moves.js';
import { connectionOf, movesFor, stationBoxes, type Way, yearlyCount } from './plan-flows.js';
import { caseNumbers, signalCount } from './read-case.js';
import type { ConnectingMinutes } from './standing/standing-facts.js';

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

/** The mean of its changeovers: a harness or shared box that is still there is not moved. */
export function connectingMinutes(inputs: CaseInputs, ways: readonly Way[]): ConnectingMinutes {
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  const fetched = movesFor(counts, ways, 'harness', num(inputs, 'harness_elsewhere_per_year'));
  const carried = movesFor(counts, ways, 'shared box', 0);
  return Object.fromEntries(
    inputs.stations.map((station, k) => {
      const [way, count] = [ways[k]!, counts[k]!];
      const share = (moves: number) => (count > 0 ? moves / count : 0);
      if (way === 'harness') {
        const minutes = harnessMinutes(inputs, station) * share(fetched[k]!);
        return [station.station, { way, minutes }];
      }
      const connection = connectionOf(way);
      const carrying = way === 'shared box' ? num(inputs, 'box_move_min') * share(carried[k]!) : 0;
      const minutes =
        connection === null
          ? boxMinutes(inputs, stationBoxes(inputs, station)) + carrying
          : connectionMinutes(inputs, station, connection);
      return [station.station, { way: 'box', minutes }];
    }),
  );
}
