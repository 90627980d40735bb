// Two cells of tables, small and unlike each other: a line with a dual gripper that runs on at night, and two parts that
// share a machine, with changeovers and an amount asked for a week.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Tables } from '../../src/tables/inspect-tables.js';

const nightLine: Tables = {
  'stations.csv': `station,kind,capacity,ready_s,close_s,mtbf_h,mttr_min
blanks,infeed,60,,,,
lathe,machine,,2,2,12,10
mill,machine,,2,2,,
tray,outfeed,80,,,,
`,
  'routes.csv': `part,step,stations,cycle_s,load_s,unload_s
hub,1,blanks,,,4
hub,2,lathe,150,8,7
hub,3,mill,170,8,7
hub,4,tray,,4,
`,
  'robot.csv': 'setting,value\nhands,2\nindex_s,2\ntravel_s,4\n',
  'parts.csv': 'part,contribution,yield_pct\nhub,2.5,98\n',
  'stops.csv':
    'station,name,every_parts,minutes,operator,early_parts\nlathe,insert,70,4,yes,30\nblanks,refill,60,3,yes,\n',
  'variation.csv': 'station,element,distribution,a,b,c\nmill,cycle,triangular,165,170,185\n',
  'shifts.csv': `pattern,shift,days,start,end,breaks,attended,operators,labour_per_h
day,early,Mon-Fri,06:00,14:00,09:00-09:30,yes,1,28
with night,early,Mon-Fri,06:00,14:00,09:00-09:30,yes,1,28
with night,night,Mon-Fri,14:00,22:00,,no,0,0
`,
};

const pair: Tables = {
  'stations.csv': `station,kind,capacity,ready_s,close_s,mtbf_h,mttr_min
in,infeed,,,,,
saw,machine,,1,1,,
press,machine,,2,2,20,8
out,outfeed,,,,,
`,
  'routes.csv': `part,step,stations,cycle_s,load_s,unload_s
pin,1,in,,,3
pin,2,saw|press,90,6,5
pin,3,out,,3,
cap,1,in,,,3
cap,2,press,140,6,5
cap,3,out,,3,
`,
  'robot.csv': 'setting,value\nhands,1\ntravel_s,5\n',
  'parts.csv': 'part,contribution,yield_pct,per_week\npin,1.2,99,500\ncap,2,97,400\n',
  'variation.csv': 'station,element,distribution,a,b,c\n*,response,exponential,2,,\n',
  'changeovers.csv': 'station,per_year,minutes_other,internal_pct,people\npress,60,30,100,1\n',
  'shifts.csv': `pattern,shift,days,start,end,breaks,attended,operators,labour_per_h
one,early,Mon-Fri,06:00,14:00,,yes,1,30
two,early,Mon-Fri,06:00,14:00,,yes,1,30
two,late,Mon-Thu,14:00,22:00,18:00-18:30,yes,1,33
`,
};

/** Writes one of them into a folder. */
export function ownShop(name: 'night line' | 'pair', folder: string): string {
  mkdirSync(folder, { recursive: true });
  for (const [file, text] of Object.entries(name === 'pair' ? pair : nightLine))
    writeFileSync(join(folder, file), text);
  return folder;
}
