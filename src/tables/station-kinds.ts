/** What each kind of station is, for those who choose one in stations.csv. */
import type { StationKind } from '../core/model/cell.js';

export const stationKinds: Readonly<Record<StationKind, string>> = {
  infeed: 'raw parts come from here: the robot only picks',
  outfeed: 'finished parts go here: the robot only places',
  machine:
    'works on the part by itself; may have a door (ready_s, close_s), and can go down (mtbf_h, mttr_min)',
  bench: 'a place without a machine where a part takes its time: wash, gauge, cooling, turning over',
  held: 'the robot keeps the part in its gripper while it is worked on: deburring wheel, brush, gauge',
  buffer: 'a shelf between two steps where a part only waits',
};
