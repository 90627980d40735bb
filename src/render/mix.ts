/** A product mix as text: the answer, the patterns, the best one's parts, machines and hours. */
import pc from 'picocolors';
import type { PatternMix, ProductMix } from '../core/mix/product-mix.js';
import { numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { printTable, right, type TableData } from './text-table.js';

export function renderMix(result: ProductMix, currency: string, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const money = result.valued === 'contribution' && currency !== '' ? ` (money in ${currency})` : '';
  const best = result.patterns.find((p) => p.pattern === result.best && p.status !== 'unsure');
  const name = (p: PatternMix): string => p.pattern ?? 'the week';
  return [
    `${paragraph(result.recommendation, style.columns)}\n`,
    `${paint.bold(`Shift patterns compared${money}`)}\n${printTable(mixPatternTable(result), style)}\n`,
    ...(best
      ? [
          ...(style.full
            ? [
                `${paint.bold(`Parts a week: ${name(best)}`)}\n${printTable(mixPartTable(best), style)}\n`,
                `${paint.bold(`Where they are made: ${name(best)}`)}\n${printTable(mixUseTable(best), style)}\n`,
              ]
            : []),
          `${paint.bold(`Hours a week: ${name(best)}`)}\n${printTable(mixHourTable(best, result.valued), style)}\n`,
        ]
      : []),
  ].join('\n');
}

export function mixPatternTable({ patterns, best, valued }: ProductMix): TableData {
  const priced = valued === 'contribution';
  return {
    columns: [
      { heading: 'pattern' },
      right('hours'),
      right('demand\nmet %'),
      right('good parts\na week'),
      right('labour\na week'),
      ...(priced ? [right('contribution\na week'), right('margin\na week')] : []),
    ],
    rows: patterns.map((p) => [
      `${p.pattern ?? 'the week'}${p.pattern === best ? ' *' : ''}`,
      numberText(p.hoursPerWeek, 1),
      p.demandMetPct === null ? '-' : numberText(p.demandMetPct, 1),
      numberText(p.parts.reduce((sum, part) => sum + part.goodPerWeek, 0)),
      numberText(p.labourPerWeek),
      ...(priced
        ? [numberText(p.valuePerWeek), p.earnedPerWeek === null ? '-' : numberText(p.earnedPerWeek)]
        : []),
    ]),
  };
}

export function mixPartTable({ parts }: PatternMix): TableData {
  return {
    columns: [{ heading: 'part' }, right('good parts'), right('demand')],
    rows: parts.map((p) => [
      p.part,
      numberText(p.goodPerWeek, 1),
      p.demandPerWeek === null ? '-' : numberText(p.demandPerWeek, 1),
    ]),
  };
}

export function mixUseTable({ uses }: PatternMix): TableData {
  return {
    columns: [{ heading: 'station' }, { heading: 'part' }, right('step'), right('parts')],
    rows: uses
      .filter((u) => u.partsPerWeek > 0)
      .map((u) => [u.station, u.part, `${u.step}`, numberText(u.partsPerWeek, 1)]),
  };
}

export function mixHourTable({ resources }: PatternMix, valued: ProductMix['valued']): TableData {
  return {
    columns: [
      { heading: '' },
      right('used'),
      right('available'),
      right('%'),
      right(valued === 'contribution' ? 'one more hour\nis worth' : 'one more hour\nadds parts'),
    ],
    rows: resources.map((r) => [
      r.resource,
      numberText(r.usedH, 1),
      numberText(r.availableH, 1),
      numberText(r.usedPct, 1),
      numberText(r.worthPerH, 2),
    ]),
  };
}
