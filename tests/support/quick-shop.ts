// The starter without its wash, every way of the robot alike and its cycles three times as long: each table is there, its
// best cycle is proven at once, and a week of it has few parts.
// For tests of the command line and of the report, to whom it does not matter how hard the cell is.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Tables } from '../../src/tables/inspect-tables.js';
import { data } from '../cli/run-in.js';

const withoutWash = (text: string): string => text.replace(/^.*wash.*\n/gm, '');

type Change = (text: string) => string;
const changed: Readonly<Record<string, Change>> = {
  'readings.csv': withoutWash,
  'log.csv': withoutWash,
  'routes.csv': (text) => withoutWash(text).replace('cap,4,', 'cap,3,'),
  'stations.csv': (text) => withoutWash(text).replace(/^(\w+,[a-z]+),[-\d.]*,[-\d.]*/gm, '$1,,'),
  'robot.csv': () => 'setting,value\nhands,1\ntravel_s,2.5\ncost_per_h,5\n',
};

const slower: Readonly<Record<string, Change>> = {
  'routes.csv': (text) => text.replace(',240,', ',720,'),
  'variation.csv': (text) => text.replace(',240,4', ',720,12'),
  'stops.csv': (text) => text.replace(/,180,,4,/g, ',60,,4,'),
  'jobs.csv': (text) => text.replace(',180,', ',60,').replace(',420,', ',140,'),
};

/** The tables by name; a log and readings are beside them in the folder. */
export function quickTables(cycles: 'long' | 'as in the starter' = 'long'): Tables {
  const names = readdirSync(data('starter')).filter((name) => name.endsWith('.csv') && name !== 'travel.csv');
  return Object.fromEntries(
    names.map((name) => {
      const text = readFileSync(join(data('starter'), name), 'utf8');
      const quick = changed[name]?.(text) ?? text;
      return [name, cycles === 'long' ? (slower[name]?.(quick) ?? quick) : quick];
    }),
  );
}

/** Writes the cell into a folder. */
export function quickShop(folder: string): string {
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of Object.entries(quickTables())) writeFileSync(join(folder, name), text);
  return folder;
}

/** Each machine with a part of its own, and an operator who takes time to come; no jobs. */
const unlike: Tables = {
  'routes.csv': `part,step,stations,cycle_s,load_s,unload_s
cap,1,rack,,,4
cap,2,mill_1,240,12,10
cap,3,done,,4,
ring,1,rack,,,4
ring,2,mill_2,190,9,8
ring,3,done,,4,
`,
  'parts.csv': 'part,contribution,yield_pct,unattended\ncap,5.5,98,yes\nring,4,99,yes\n',
  'variation.csv': `station,element,distribution,a,b,c
mill_1,cycle,lognormal,240,4,
rack,unload,triangular,3.5,4,6
*,repair,exponential,8,,
*,response,exponential,4,,
`,
};

const NOT_OF_UNLIKE = ['jobs.csv', 'setups.csv', 'log.csv', 'readings.csv'];

/** Writes the same shop with two unlike parts into a folder: any sequence whatever is settled at once. */
export function unlikeShop(folder: string): string {
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of Object.entries({ ...quickTables('as in the starter'), ...unlike }))
    if (!NOT_OF_UNLIKE.includes(name)) writeFileSync(join(folder, name), text);
  return folder;
}
