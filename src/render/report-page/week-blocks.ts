/** What a shift and a week bring in each pattern, where the parts go, and takt against demand. */
import type { ShiftYield } from '../../core/shifts/shift-yield.js';
import { patternDifferenceChart } from '../charts/difference-chart.js';
import { lossChart } from '../charts/loss-chart.js';
import { demandChart } from '../charts/output-charts.js';
import { weekChart } from '../charts/week-chart.js';
import { type Block, listOf, note, said, section } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { countText } from '../numbers.js';
import {
  changeoverTable,
  patternTable,
  simulatedPatternTable,
  taktTable,
} from '../result-tables/shift-tables.js';
import { changeoverCaption, patternNotes, shiftSentences } from '../shifts.js';
import { moneyUnit, type PartView } from './report-view.js';

export function weekBlocks(view: PartView<'shifts' | 'patterns' | 'performance'>): Block[] {
  const { shifts } = view.results;
  const title = section('Output per week');
  if (shifts === null)
    return [
      title,
      said(
        'No shifts are given. Fill in shifts.csv to see good parts by shift and week, what is lost to which cause, the cost of labour, and one pattern held against another.',
      ),
    ];
  return [
    title,
    listOf(shiftSentences(shifts)),
    tableBlock(`Shift patterns compared, constant times${moneyUnit(view)}`, patternTable(shifts.patterns), {
      wide: true,
    }),
    ...demandBlocks(view),
    weekChart(shifts.patterns),
    ...shifts.patterns.flatMap((pattern): Block[] => [
      lossChart(pattern),
      listOf(patternNotes(pattern)),
      ...changeoverBlocks(pattern),
    ]),
    ...differenceBlocks(view),
    ...taktBlocks(view),
  ];
}

function demandBlocks({ results: { performance } }: PartView<'performance'>): Block[] {
  const chart = demandChart(performance);
  return chart === null ? [] : [chart];
}

function changeoverBlocks(pattern: ShiftYield): Block[] {
  const table = changeoverTable(pattern);
  return table === null ? [] : [tableBlock(`${changeoverCaption(pattern)}: ${pattern.pattern}`, table)];
}

function differenceBlocks({ results: { patterns }, numbers }: PartView<'patterns'>): Block[] {
  if (patterns === null) return [];
  const runs = `${countText(patterns.replications, 'week')} of each, seed ${patterns.seed}`;
  return [
    tableBlock(
      `Shift patterns with downtime, variation and changeovers, with the same random numbers, ${runs}; bounds of the mean at ${numbers.percent(95, 0)} confidence`,
      simulatedPatternTable(patterns),
    ),
    patternDifferenceChart(patterns),
  ];
}

function taktBlocks({ results: { performance } }: PartView<'performance'>): Block[] {
  const table = taktTable(performance);
  return [
    table === null
      ? note(
          'No part has a demand. With per_shift or per_week in parts.csv this section shows the takt of each part and whether it is met.',
        )
      : tableBlock('Takt against the open time for one good part', table),
  ];
}
