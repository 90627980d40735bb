/** Why the name of a timed element gives no rows, with the nearest known name. */

import type { Cell } from '../core/model/cell.js';
import { listText } from '../core/model/list-text.js';
import { type NameProblem, TIMED_AT_STATION } from '../core/readings/timed-element.js';
import { inBackticks } from './in-backticks.js';
import { nameHelp } from './nearest-name.js';

/** @param cell the cell whose names count, or null */
export function elementNameText({ what, name }: NameProblem, cell: Cell | null): string {
  if (what === 'form')
    return `the name gives no row for a table: expected a station and ${listText(TIMED_AT_STATION, 'or')}, such as \`mill_1 cycle\`, or \`travel\` and two stations.`;
  const [names, table] =
    what === 'station'
      ? [cell?.stations.map((s) => s.name) ?? [], 'stations.csv']
      : [cell?.routes.map((r) => r.part) ?? [], 'routes.csv'];
  const help = nameHelp(name, names, `${what}s`);
  return `there is no ${what} ${inBackticks(name)} in ${table}, so it gives no row.${help === null ? '' : ` ${help}`}`;
}
