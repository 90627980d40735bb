/** A sound cell as text, and ways to break it in one place and print what is said about it. */
import { renderComplaints } from '../../src/render/complaints.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';

export const soundTables: Readonly<Record<string, string>> = {
  'stations.csv': `station,kind,x_m,y_m,capacity,ready_s,close_s,cost_per_h,mtbf_h,mttr_min
rack,infeed,0,0,,,,,,
mill_1,machine,1,0,,2,3,12,20,5
mill_2,machine,2,0,,2,3,12,,
gauge,bench,1,1,,,,,,
brush,held,2,1,,,,,,
done,outfeed,3,0,,,,,,
`,
  'routes.csv': `part,step,stations,cycle_s,load_s,unload_s,max_wait_s,parts_per_cycle,every
cap,1,rack,,,4,,,
cap,2,mill_1|mill_2,240,12,10,,,
cap,3,brush,15,,,,,
cap,4,gauge,20,4,4,60,,5
cap,5,done,,4,,,,
`,
  'robot.csv': 'setting,value\nhands,1\nspeed_m_s,1\naccel_m_s2,2\n',
  'travel.csv': 'from,to,empty_s,loaded_s\nrack,mill_1,1.6,1.8\nmill_1,rack,1.7,\n',
  'parts.csv': 'part,contribution,per_shift,ratio,yield_pct\ncap,4.2,100,,98\n',
  'shifts.csv': `pattern,shift,days,start,end,breaks,attended,operators,labour_per_h
two,early,Mon-Fri,06:00,14:00,09:00-09:20;11:30-12:00,yes,1,38
two,night,Mon-Fri,22:00,06:00,01:00-01:30,no,0,0
`,
  'stops.csv': 'station,name,every_parts,every_h,minutes,operator\nmill_1,tool change,50,,4,yes\n',
  'variation.csv':
    'station,element,distribution,a,b,c\n*,cycle,lognormal,240,12,\nmill_1,repair,readings,4.1|5|7.25,,\n',
  'changeovers.csv': 'station,per_year,minutes_other,internal_pct,people\nmill_1,40,30,80,1\n',
  'setups.csv': 'station,from,to,minutes\nmill_1,cap,lid,25\nmill_1,lid,ring,30\nmill_1,ring,cap,10\n',
  'jobs.csv': 'job,part,quantity,due,not_before,setup_min\nj1,cap,120,Wed 14:00,,25\nj2,cap,300,Fri,Tue,25\n',
  'signals.csv': `station,signal,direction,kind,volts,milliamps,normally,cable_m,cable_mm2,safety
mill_1,door open,in,digital,24,8,open,12,0.5,no
`,
  'costs.csv': `item,value,low,high,unit,source
labour_per_h,38,34,45,money/h,wage list
box_price,900,800,1100,money,quotation
depreciation,none,,,,
box_price_breaks,1:900;4:820,,,,
`,
};

/** One change: a piece of a table's text replaced, or the whole text where `from` is null; no `to` takes the file out. */
export type Change = readonly [file: string, from: string | null, to?: string];

/** The sound tables with changes. */
export function changedTables(changes: readonly Change[]): Record<string, string> {
  const tables: Record<string, string> = { ...soundTables };
  for (const [file, from, to] of changes) {
    if (to === undefined) delete tables[file];
    else if (from === null) tables[file] = to;
    else if (tables[file]?.includes(from)) tables[file] = tables[file].replace(from, () => to);
    else throw new Error(`${file} of the sound tables does not hold ${from}`);
  }
  return tables;
}

/** All that is said about the sound tables with changes, as printed. */
export function saidAbout(...changes: readonly Change[]): string {
  return renderComplaints(inspectTables(changedTables(changes)).complaints, { colour: false });
}
