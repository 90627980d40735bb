/** What the tables may hold, as text for the terminal: each column with its meaning, what it may hold and what an empty cell is. */
import { connectionItems } from '../core/model/connection-items.js';
import { costItems } from '../core/model/cost-items.js';
import { distributionFormats } from '../tables/distributions.js';
import { stationKinds } from '../tables/station-kinds.js';
import { besideFormats, type TableFormat, tableFormats } from '../tables/table-formats.js';
import { paragraph } from './paragraph.js';

/** Every table with what it holds. */
export function tablesOverview(columns: number): string {
  const all = [...tableFormats, ...besideFormats];
  const width = Math.max(...all.map((format) => format.file.length)) + 2;
  const lines = all.map(({ file, needed, meaning }) =>
    paragraph(`${meaning}${needed ? ' (needed)' : ''}`, columns, file.padEnd(width)),
  );
  return `A cell is a folder of these tables (CSV, header first, units in the column names):\n\n${lines.join('\n')}\n`;
}

/** The columns of a table, and what else its rows may name. */
export function tableHelp(format: TableFormat, columns: number): string {
  const head = `${format.file} (${format.needed ? 'needed' : 'optional'}): ${format.meaning}.`;
  return `${[
    paragraph(head, columns),
    entries(format.columns, columns),
    ...(format.settings ? [`Settings\n\n${entries(format.settings, columns)}`] : []),
    ...more(format, columns),
  ].join('\n\n')}\n`;
}

function more({ file }: TableFormat, columns: number): string[] {
  if (file === 'stations.csv') {
    const lines = Object.entries(stationKinds).map(([name, text]) => ({ name, text }));
    return [`Kinds of stations\n\n${list(lines, columns)}`];
  }
  if (file === 'variation.csv') {
    const lines = Object.entries(distributionFormats).map(([name, { meaning }]) => ({ name, text: meaning }));
    return [`Distributions, with what columns a, b and c hold\n\n${list(lines, columns)}`];
  }
  if (file !== 'costs.csv') return [];
  const items = costItems.map(({ name, unit, meaning, choices, needed, default: blank }) => {
    const allowed = choices.length > 0 ? `; one of ${choices.join(', ')}` : '';
    const without = needed
      ? 'needed'
      : blank === null
        ? 'none when left out'
        : `${blank || 'empty'} when left out`;
    return { name, text: `${meaning}${allowed}. ${unit === '' ? '' : `In ${unit}; `}${without}.` };
  });
  const connection = connectionItems.map(({ name, unit, meaning, default: blank }) => ({
    name: `coupling.${name}`,
    text: `${meaning}. In ${unit}; ${blank === null ? 'none' : 0} when left out.`,
  }));
  return [
    `Items\n\n${list(items, columns)}`,
    `Items of a further way of connecting, under a name of your own and a point, such as coupling\n\n${list(connection, columns)}`,
  ];
}

function entries(formats: TableFormat['columns'], columns: number): string {
  return list(
    formats.map(({ name, meaning, allowed, needed, default: blank }) => ({
      name,
      text: `${meaning} (${allowed}). ${needed ? 'Needed.' : `Empty: ${blank}.`}`,
    })),
    columns,
  );
}

function list(items: readonly { readonly name: string; readonly text: string }[], columns: number): string {
  const width = Math.max(...items.map(({ name }) => name.length)) + 2;
  return items.map(({ name, text }) => paragraph(text, columns, name.padEnd(width))).join('\n');
}
