/** Small cells with jobs, as tables: unless said otherwise a dual gripper that turns in no time and no travel, so that hours can be worked by hand. */
import type { Cell } from '../../../src/core/model/cell.js';
import { readCell } from '../../../src/tables/read-cell.js';

export interface JobCellTables {
  /** Part: stations with a bar between, and cycle in seconds. */
  readonly parts: Readonly<Record<string, readonly [stations: string, cycleS: number]>>;
  readonly machines: readonly string[];
  /** Rows of shifts.csv without the pattern, which is `week`. */
  readonly shifts: readonly string[];
  /** Rows of jobs.csv: job,part,quantity,due,not_before,setup_min. */
  readonly jobs: readonly string[];
  readonly setups?: readonly string[];
  /** Rows of stops.csv: station,name,every_parts,every_h,minutes,operator,early_parts. */
  readonly stops?: readonly string[];
  /** Rows of changeovers.csv. */
  readonly changeovers?: readonly string[];
  readonly yieldPct?: Readonly<Record<string, number>>;
  /** Parts that are taken in only while people are there. */
  readonly attendedOnly?: readonly string[];
  readonly rackParts?: number;
  readonly robot?: { readonly hands: number; readonly travelS: number };
}

/** Robot seconds of one part: picked at the rack, placed and picked at the machine, placed at the end. */
export const ROBOT_S = 20;
/** Machine seconds of one part beside its cycle: placed and picked. */
export const AT_MACHINE_S = 10;

export function jobCell(of: JobCellTables): Cell {
  const rack = of.rackParts ?? '';
  const robot = of.robot ?? { hands: 2, travelS: 0 };
  return readCell({
    'stations.csv': lines(
      'station,kind,capacity',
      `in,infeed,${rack}`,
      ...of.machines.map((name) => `${name},machine,`),
      'out,outfeed,',
    ),
    'routes.csv': lines(
      'part,step,stations,cycle_s,load_s,unload_s',
      ...Object.entries(of.parts).flatMap(([part, [stations, cycleS]]) => [
        `${part},1,in,,,5`,
        `${part},2,${stations},${cycleS},5,5`,
        `${part},3,out,,5,`,
      ]),
    ),
    'robot.csv': `setting,value\nhands,${robot.hands}\nindex_s,0\ntravel_s,${robot.travelS}\n`,
    'shifts.csv': lines(
      'pattern,shift,days,start,end,breaks,attended,operators,labour_per_h',
      ...of.shifts.map((row) => `week,${row}`),
    ),
    'jobs.csv': lines('job,part,quantity,due,not_before,setup_min', ...of.jobs),
    'parts.csv': lines(
      'part,yield_pct,unattended',
      ...Object.keys(of.parts).map(
        (part) => `${part},${of.yieldPct?.[part] ?? ''},${of.attendedOnly?.includes(part) ? 'no' : 'yes'}`,
      ),
    ),
    'setups.csv': lines('station,from,to,minutes', ...(of.setups ?? [])),
    'stops.csv': lines('station,name,every_parts,every_h,minutes,operator,early_parts', ...(of.stops ?? [])),
    'changeovers.csv': lines('station,per_year,minutes_other,internal_pct,people', ...(of.changeovers ?? [])),
  });
}

function lines(...rows: readonly string[]): string {
  return `${rows.join('\n')}\n`;
}
