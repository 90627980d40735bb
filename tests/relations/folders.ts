// The folders of data/ that have a sequence, as they are and without chance.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Tables } from '../../src/tables/inspect-tables.js';
import { data } from '../cli/run-in.js';
import { atSize } from '../support/size.js';

/** Those whose best sequence takes long to search are left to the larger runs. */
export const folders: readonly string[] = atSize(
  ['two-hands', 'wash-line'],
  ['two-hands', 'wash-line', 'starter', 'demo'],
  readdirSync(data('')).filter((name) => name !== 'no-schedule'),
);

export function tablesOf(folder: string): Tables {
  const names = readdirSync(folder).filter((name) => /\.csv$/.test(name) && !/^(log|readings)/.test(name));
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
}

/** No stops, no variation, racks that never run out, no scrap, day and night: what is left is the robot cycle. */
export function withoutChance(tables: Tables): Tables {
  const gone = ['stops.csv', 'variation.csv', 'changeovers.csv', 'jobs.csv', 'shifts.csv'];
  const rest = Object.fromEntries(Object.entries(tables).filter(([name]) => !gone.includes(name)));
  return {
    ...rest,
    'stations.csv': withoutColumns(rest['stations.csv']!, ['mtbf_h', 'mttr_min'], /,(infeed|outfeed),/, [
      'capacity',
    ]),
    ...(rest['parts.csv'] === undefined
      ? {}
      : { 'parts.csv': withoutColumns(rest['parts.csv'], ['yield_pct'], /./, []) }),
  };
}

/** Empties columns; `more` of them only in rows that match. The tables of data/ have no quoted commas. */
function withoutColumns(
  text: string,
  columns: readonly string[],
  rows: RegExp,
  more: readonly string[],
): string {
  const lines = text.split('\n');
  const at = lines.findIndex((line) => !line.startsWith('#'));
  const head = lines[at]!.split(',');
  return lines
    .map((line, k) => {
      if (k <= at || line === '' || line.startsWith('#')) return line;
      const gone = rows.test(line) ? [...columns, ...more] : columns;
      return line
        .split(',')
        .map((cell, c) => (gone.includes(head[c]!) ? '' : cell))
        .join(',');
    })
    .join('\n');
}
