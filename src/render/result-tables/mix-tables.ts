/** A product mix as tables: patterns, parts, where they are made, hours used and what one more is worth. */
import type { PatternMix, ProductMix } from '../../core/mix/product-mix.js';
import type { ResultTable } from './result-table.js';

export const MIX_TABLES = ['mix-patterns.csv', 'mix.csv', 'mix-stations.csv', 'mix-hours.csv'] as const;

const name = ({ pattern }: PatternMix): string => pattern ?? 'the week';

export function mixTables({ patterns, best, valued }: ProductMix): ResultTable[] {
  const priced = valued === 'contribution';
  const worth = priced ? 'one_more_hour_is_worth' : 'parts_for_one_more_hour';
  return [
    {
      file: 'mix-patterns.csv',
      rows: [
        [
          'pattern',
          'hours_per_week',
          'demand_met_pct',
          'good_parts_per_week',
          'labour_per_week',
          ...(priced ? ['contribution_per_week', 'margin_per_week'] : []),
          'best',
        ],
        ...patterns.map((p) => [
          name(p),
          p.hoursPerWeek,
          p.demandMetPct,
          p.parts.reduce((sum, part) => sum + part.goodPerWeek, 0),
          p.labourPerWeek,
          ...(priced ? [p.valuePerWeek, p.earnedPerWeek] : []),
          p.pattern === best,
        ]),
      ],
      money: ['labour_per_week', 'contribution_per_week', 'margin_per_week'],
      chart: {
        kind: 'column',
        title: 'Good parts a week by shift pattern',
        of: 'pattern',
        values: ['good_parts_per_week'],
      },
    },
    {
      file: 'mix.csv',
      rows: [
        ['pattern', 'part', 'good_parts_per_week', 'demand_per_week'],
        ...patterns.flatMap((p) =>
          p.parts.map((part) => [name(p), part.part, part.goodPerWeek, part.demandPerWeek]),
        ),
      ],
    },
    {
      file: 'mix-stations.csv',
      rows: [
        ['pattern', 'station', 'part', 'step', 'parts_per_week'],
        ...patterns.flatMap((p) =>
          p.uses
            .filter((u) => u.partsPerWeek > 0)
            .map((u) => [name(p), u.station, u.part, u.step, u.partsPerWeek]),
        ),
      ],
    },
    {
      file: 'mix-hours.csv',
      rows: [
        ['pattern', 'resource', 'used_h', 'available_h', 'used_pct', worth],
        ...patterns.flatMap((p) =>
          p.resources.map((r) => [name(p), r.resource, r.usedH, r.availableH, r.usedPct, r.worthPerH]),
        ),
      ],
      money: ['one_more_hour_is_worth'],
    },
  ];
}
