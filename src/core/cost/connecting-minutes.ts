/** Minutes that connecting each machine takes at one of its changeovers, however each is served. */
import { type CaseInputs, num } from './case-inputs.js';
import { boxMinutes, connectionMinutes, harnessMinutes } from './changeover-minutes.js';
import { connectionOf, movesFor, stationBoxes, type Way, yearlyCount } from './plan-flows.js';
import type { ConnectingMinutes } from './standing/standing-facts.js';

/** The mean of its changeovers: a harness or shared box that is still there is not moved. */
export function connectingMinutes(inputs: CaseInputs, ways: readonly Way[]): ConnectingMinutes {
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  const fetched = movesFor(counts, ways, 'harness', num(inputs, 'harness_elsewhere_per_year'));
  const carried = movesFor(counts, ways, 'shared box', 0);
  return Object.fromEntries(
    inputs.stations.map((station, k) => {
      const count = counts[k]!;
      const share = (moves: number) => (count > 0 ? moves / count : 0);
      if (ways[k] === 'harness')
        return [
          station.station,
          { way: 'harness', minutes: harnessMinutes(inputs, station) * share(fetched[k]!) },
        ];
      const connection = connectionOf(ways[k]!);
      if (connection !== null)
        return [station.station, { way: 'box', minutes: connectionMinutes(inputs, station, connection) }];
      const carrying = ways[k] === 'shared box' ? num(inputs, 'box_move_min') * share(carried[k]!) : 0;
      return [
        station.station,
        { way: 'box', minutes: boxMinutes(inputs, stationBoxes(inputs, station)) + carrying },
      ];
    }),
  );
}
