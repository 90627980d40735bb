/** The order of jobs on each machine, with its set-up minutes, as text. */
import type { SetupOrders, StationSetups } from '../core/setups/setup-orders.js';
import { countText, numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import { setupOrderTable } from './result-tables/setup-tables.js';
import type { TextStyle } from './text-style.js';
import { textTable } from './text-table.js';
import { visibleText } from './visible-text.js';

export function renderSetups(result: SetupOrders, style: TextStyle): string {
  return `${result.stations.map((station) => stationText(station, style)).join('\n\n')}\n`;
}

function stationText(found: StationSetups, style: TextStyle): string {
  const { columns, rows } = setupOrderTable(found);
  const table = textTable(
    columns,
    rows.map((row) => row.map(visibleText)),
    style,
  );
  return `${paragraph(visibleText(setupSentence(found)), style.columns)}\n\n${table}`;
}

export function setupSentence({
  station,
  order,
  minutes,
  asListedMinutes,
  proven,
  boundMinutes,
}: StationSetups): string {
  const saved = asListedMinutes - minutes;
  const against =
    saved > 1e-9
      ? `${numberText(saved, 1)} min less than in the order of the table`
      : 'as many as in the order of the table';
  const sure = proven
    ? 'Proven optimal.'
    : `Not proven optimal: no order takes less than ${numberText(boundMinutes, 1)} min.`;
  return `${station}: ${countText(order.length, 'job')} need ${numberText(minutes, 1)} set-up minutes in this order, ${against}. ${sure}`;
}
