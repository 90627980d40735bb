/** Comment lines that explain the columns of a table, for the starter folder. */
import { costItems } from '../core/model/cost-items.js';
import { distributionFormats } from '../tables/distributions.js';
import { stationKinds } from '../tables/station-kinds.js';
import type { TableFormat } from '../tables/table-formats.js';
import { paragraph } from './paragraph.js';

type ColumnFormat = TableFormat['columns'][number];

const WIDTH = 110;

/** @param rows the table's text, which may begin with comments of its own */
export function withColumnComments(format: TableFormat, rows: string): string {
  return `${comments(format).join('\n')}\n${rows}`;
}

function comments(format: TableFormat): string[] {
  const need = format.needed ? 'needed' : 'may be left out';
  return [
    `# ${format.file}: ${format.meaning} (${need}). Lines that begin with # are not read.`,
    ...format.columns.map((column) => columnComment(column, '')),
    ...(format.settings ?? []).map((setting) => columnComment(setting, 'setting ')),
    ...(format.file === 'stations.csv' ? kindComments() : []),
    ...(format.file === 'variation.csv' ? distributionComments() : []),
    ...(format.file === 'costs.csv' ? itemComments() : []),
  ];
}

function columnComment(column: ColumnFormat, what: string): string {
  const unit = column.unit === '' ? '' : ` [${column.unit}]`;
  const blank = column.default === null ? 'needed' : `empty: ${column.default}`;
  return comment(`${what}${column.name}${unit}: ${column.meaning} (${column.allowed}; ${blank})`);
}

function kindComments(): string[] {
  return Object.entries(stationKinds).map(([name, meaning]) => comment(`kind ${name}: ${meaning}`));
}

function distributionComments(): string[] {
  return Object.entries(distributionFormats).map(([name, { meaning }]) =>
    comment(`distribution ${name}: ${meaning}`),
  );
}

function itemComments(): string[] {
  return costItems.map((item) => {
    const unit = item.unit === '' ? '' : ` [${item.unit}]`;
    const blank = item.needed
      ? 'needed'
      : item.default === null
        ? 'no default'
        : `default ${item.default === '' ? 'empty' : item.default}`;
    return comment(`item ${item.name}${unit}: ${item.meaning} (${blank})`);
  });
}

function comment(text: string): string {
  return paragraph(text, WIDTH, '# ', '#   ');
}
