// The starter without its wash, every way of the robot alike: each table is there, and its best cycle is proven at once.
// For tests of the command line, to whom it does not matter how hard the cell is.
import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { data } from '../cli/run-in.js';

/** Writes the cell into a folder that is not there yet. */
export function quickShop(folder: string): string {
  cpSync(data('starter'), folder, { recursive: true });
  const change = (name: string, by: (text: string) => string): void =>
    writeFileSync(join(folder, name), by(readFileSync(join(folder, name), 'utf8')));
  const withoutWash = (text: string): string => text.replace(/^.*wash.*\n/gm, '');
  change('readings.csv', withoutWash);
  change('routes.csv', (text) => withoutWash(text).replace('cap,4,', 'cap,3,'));
  change('stations.csv', (text) => withoutWash(text).replace(/^(\w+,[a-z]+),[-\d.]*,[-\d.]*/gm, '$1,,'));
  rmSync(join(folder, 'travel.csv'));
  rmSync(join(folder, 'log.csv'));
  writeFileSync(join(folder, 'robot.csv'), 'setting,value\nhands,1\ntravel_s,2.5\ncost_per_h,5\n');
  return folder;
}
