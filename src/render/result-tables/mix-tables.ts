/** A product mix as tables: patterns, parts, where they are made, hours used and what one more is worth. */
import type { PatternMix, ProductMix } from '../../core/mix/product-mix.js';
import { type Column, figures, fileTable, readTable, words } from '../columns.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

export const MIX_TABLES = ['mix-patterns.csv', 'mix.csv', 'mix-stations.csv', 'mix-hours.csv'] as const;

/** A pattern's name, or that of a cell without patterns. */
export const mixName = ({ pattern }: PatternMix): string => pattern ?? 'the week';

export function mixTables(mix: ProductMix): ResultTable[] {
  const { patterns } = mix;
  const each = <Row extends object>(rows: (p: PatternMix) => readonly Row[]) =>
    patterns.flatMap((p) => rows(p).map((row) => ({ ...row, of: mixName(p) })));
  return [
    ...fileTable(
      'mix-patterns.csv',
      patternColumns(mix),
      patterns,
      drawn('column', 'Good parts a week by shift pattern', 'pattern', ['good_parts_per_week']),
    ),
    ...fileTable(
      'mix.csv',
      [OF, ...PARTS],
      each((p) => p.parts),
    ),
    ...fileTable('mix-stations.csv', [OF, ...USES], each(usesOf)),
    ...fileTable(
      'mix-hours.csv',
      [OF, ...hourColumns(mix.valued)],
      each((p) => p.resources),
    ),
  ];
}

/** Of which pattern a row is, where one file holds them all. */
const OF: Column<{ readonly of: string }> = words('pattern', undefined, (row) => row.of);

function patternColumns({ best, valued }: ProductMix): Column<PatternMix>[] {
  const money: Column<PatternMix>[] = [
    figures('contribution_per_week', 'contribution\na week', 0, (p) => p.valuePerWeek, { isMoney: true }),
    figures('margin_per_week', 'margin\na week', 0, (p) => p.earnedPerWeek, { isMoney: true }),
  ];
  return [
    words('pattern', 'pattern', mixName, {
      text: (p) => `${mixName(p)}${p.pattern === best ? ' *' : ''}`,
    }),
    figures('hours_per_week', 'hours', 1, (p) => p.hoursPerWeek),
    figures('demand_met_pct', 'demand\nmet %', 1, (p) => p.demandMetPct),
    figures('good_parts_per_week', 'good parts\na week', 0, (p) =>
      p.parts.reduce((sum, part) => sum + part.goodPerWeek, 0),
    ),
    figures('labour_per_week', 'labour\na week', 0, (p) => p.labourPerWeek, { isMoney: true }),
    ...(valued === 'contribution' ? money : []),
    words('best', undefined, (p) => p.pattern === best),
  ];
}

export function mixPatternTable(mix: ProductMix): TableData {
  return readTable(patternColumns(mix), mix.patterns);
}

const PARTS: readonly Column<PatternMix['parts'][number]>[] = [
  words('part', 'part', (p) => p.part),
  figures('good_parts_per_week', 'good parts', 1, (p) => p.goodPerWeek),
  figures('demand_per_week', 'demand', 1, (p) => p.demandPerWeek),
];

export function mixPartTable({ parts }: PatternMix): TableData {
  return readTable(PARTS, parts);
}

const USES: readonly Column<PatternMix['uses'][number]>[] = [
  words('station', 'station', (u) => u.station),
  words('part', 'part', (u) => u.part),
  figures('step', 'step', 0, (u) => u.step),
  figures('parts_per_week', 'parts', 1, (u) => u.partsPerWeek),
];

function usesOf({ uses }: PatternMix): PatternMix['uses'] {
  return uses.filter((u) => u.partsPerWeek > 0);
}

export function mixUseTable(mix: PatternMix): TableData {
  return readTable(USES, usesOf(mix));
}

function hourColumns(valued: ProductMix['valued']): Column<PatternMix['resources'][number]>[] {
  return [
    words('resource', 'machines and people', (r) => r.resource),
    figures('used_h', 'used h', 1, (r) => r.usedH),
    figures('available_h', 'available h', 1, (r) => r.availableH),
    figures('used_pct', 'used %', 1, (r) => r.usedPct),
    valued === 'contribution'
      ? figures('one_more_hour_is_worth', 'one more hour\nis worth', 2, (r) => r.worthPerH, { isMoney: true })
      : figures('parts_for_one_more_hour', 'one more hour\nadds parts', 2, (r) => r.worthPerH),
  ];
}

export function mixHourTable({ resources }: PatternMix, valued: ProductMix['valued']): TableData {
  return readTable(hourColumns(valued), resources);
}
