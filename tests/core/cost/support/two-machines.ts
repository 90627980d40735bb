/** Two independent machines served by one robot, each with a part of its own; the harness is moved between them. */
import type { Cell } from '../../../../src/core/model/cell.js';
import { readCell } from '../../../../src/tables/read-cell.js';

export interface TwoMachines {
  readonly cycleA?: number;
  readonly cycleB?: number;
  readonly travelS?: number;
  /** Demand per shift of a and b; none when not given. */
  readonly asked?: readonly [a: number, b: number];
  readonly shifts?: boolean;
  /** Further rows of costs.csv. */
  readonly items?: string;
}

export function twoMachines(of: TwoMachines = {}): Cell {
  const { cycleA = 300, cycleB = 280, travelS = 4, asked = ['', ''], items = '' } = of;
  return readCell({
    'stations.csv': 'station,kind\nin,infeed\nm1,machine\nm2,machine\nout,outfeed\n',
    'robot.csv': `setting,value\nhands,1\ntravel_s,${travelS}\n`,
    'routes.csv': `part,step,stations,cycle_s,load_s,unload_s
a,1,in,,,5
a,2,m1,${cycleA},5,5
a,3,out,,5,
b,1,in,,,5
b,2,m2,${cycleB},5,5
b,3,out,,5,
`,
    'parts.csv': `part,contribution,per_shift\na,5,${asked[0]}\nb,5,${asked[1]}\n`,
    'changeovers.csv': 'station,per_year\nm1,50\nm2,50\n',
    'costs.csv': `item,value,low,high
labour_per_h,40
box_price,2500
harness_connectors,3
harness_min_per_connector,10
horizon_years,5
discount_pct,8
box_plug_min,2
${items}`,
    ...(of.shifts
      ? {
          'shifts.csv':
            'pattern,shift,days,start,end,attended,operators\nday,early,Mon-Fri,06:00,14:00,yes,1\n',
        }
      : {}),
  });
}
