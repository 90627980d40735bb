/**
 * A finished text with its figures in the form of a language and country. Sentences, tables and charts are all written
 * with figures in one fixed form (1,234.5, 61.2%, €1,234); only here does that form change. What is quoted in backticks,
 * names of the cell and references keep their form.
 */
import type { Cell } from '../core/model/cell.js';
import { currencyOf } from '../core/model/cost-value.js';
import type { Block, ChartBlock, Document, InnerBlock, TableBlock } from './document/blocks.js';
import { type LocaleNumbers, localeNumbers } from './document/locale-numbers.js';

export type InLocale = (text: string) => string;

/** What keeps its form in any language: names that hold figures, and the money that it is written in. */
export interface KeptForms {
  readonly names: readonly string[];
  readonly currency: string;
}

export function namedIn(cell: Cell): KeptForms {
  const names = [
    ...cell.stations.map(({ name }) => name),
    ...cell.routes.map(({ part }) => part),
    ...cell.shifts.map(({ pattern }) => pattern),
  ];
  return { names: [...new Set(names)], currency: currencyOf(cell) };
}

/** A figure by itself: no part of a word, a version, a clause of a standard, a time, or a row to paste into a table. */
const BEFORE = String.raw`(?<![\w.,:/|]|\bcl\. |\bCFR )`;
const FIGURE = String.raw`(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?)`;
const AFTER = String.raw`(?![\w(]|[.,:/]\d)`;

/**
 * @param currency money whose sign stands before the figure is set as the locale sets it
 * @param names texts of the cell that hold figures and are none
 * @example figuresInLocale('de-DE', 'EUR')('Output 1,053.4 parts/h, 61.2% busy') // 'Output 1.053,4 parts/h, 61,2 % busy'
 */
export function figuresInLocale(locale: string, currency: string, names: readonly string[] = []): InLocale {
  const numbers = localeNumbers(locale, currency);
  const sign = /^[^\d\s]*/.exec(localeNumbers('en', currency).money(1))![0];
  const kept = names.filter((name) => /\d/.test(name)).map(escaped);
  const pattern = new RegExp(
    [
      '`[^`]*`',
      ...kept,
      ...(sign === '' ? [] : [`${BEFORE}(-?)${escaped(sign)}${FIGURE}${AFTER}`]),
      `${BEFORE}${FIGURE}(%?)${AFTER}`,
    ].join('|'),
    'g',
  );
  const money = sign === '' ? 0 : 2;
  return (text) =>
    text.replace(pattern, (whole: string, ...groups: unknown[]) => {
      const at = (k: number) => groups[k] as string | undefined;
      if (money > 0 && at(1) !== undefined) return moneyIn(numbers, `${at(0)}${at(1)}`);
      const figure = at(money);
      return figure === undefined ? whole : figureIn(numbers, figure, at(money + 1) === '%');
    });
}

const numberOf = (figure: string): number => Number(figure.replaceAll(',', ''));

function figureIn(numbers: LocaleNumbers, figure: string, isPercent: boolean): string {
  const digits = figure.split('.')[1]?.length ?? 0;
  const value = numberOf(figure);
  if (isPercent) return numbers.percent(value, digits);
  // A count without groups, such as a year or a seed, keeps its digits together.
  const isPlain = digits === 0 && !figure.includes(',');
  return isPlain ? figure : numbers.number(value, digits);
}

/** Whole money stays whole. */
function moneyIn(numbers: LocaleNumbers, figure: string): string {
  return numbers.money(numberOf(figure));
}

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A text in columns: what a figure gains or loses in width is taken from, or given to, the blanks before it. */
export function columnsInLocale(inLocale: InLocale): InLocale {
  return (text) =>
    text
      .split('\n')
      .map((line) =>
        line
          .split(/(?<=\S)(?= {2,})/)
          .map((cell, k) => (k === 0 ? inLocale(cell) : evened(cell, inLocale)))
          .join(''),
      )
      .join('\n');
}

/** @param cell with the blanks before it */
function evened(cell: string, inLocale: InLocale): string {
  const changed = inLocale(cell);
  const more = changed.length - cell.length;
  if (more === 0) return changed;
  return more < 0 ? `${' '.repeat(-more)}${changed}` : changed.replace(new RegExp(`^ {0,${more}}(?= )`), '');
}

/** Every text of a document; tables and lists that quote are left as they are. */
export function documentInLocale(document: Document, inLocale: InLocale): Document {
  return {
    ...document,
    subtitle: inLocale(document.subtitle),
    blocks: document.blocks.map((block) => blockInLocale(block, inLocale) as Block),
  };
}

function blockInLocale(block: Block, inLocale: InLocale): Block {
  const within = (blocks: readonly InnerBlock[]) =>
    blocks.map((inner) => blockInLocale(inner, inLocale) as InnerBlock);
  switch (block.kind) {
    case 'section':
    case 'subsection':
      return { ...block, title: inLocale(block.title) };
    case 'paragraph':
      return { ...block, text: inLocale(block.text) };
    case 'list':
      return block.quoted ? block : { ...block, items: block.items.map(inLocale) };
    case 'table':
      return tableInLocale(block, inLocale);
    case 'figures':
      return {
        ...block,
        items: block.items.map(({ value, what, sure }) => ({
          value: inLocale(value),
          what: inLocale(what),
          sure: inLocale(sure),
        })),
      };
    case 'beside':
      return { ...block, pieces: block.pieces.map(within) };
    case 'fold':
      return { ...block, title: inLocale(block.title), blocks: within(block.blocks) };
    case 'chart':
      return chartInLocale(block, inLocale);
  }
}

function tableInLocale(table: TableBlock, inLocale: InLocale): TableBlock {
  const caption = inLocale(table.caption);
  return table.quoted
    ? { ...table, caption }
    : { ...table, caption, rows: table.rows.map((row) => row.map(inLocale)) };
}

/** Within a drawing only what is read changes. */
function chartInLocale(chart: ChartBlock, inLocale: InLocale): ChartBlock {
  return {
    ...chart,
    title: inLocale(chart.title),
    description: inLocale(chart.description),
    note: inLocale(chart.note),
    svg: chart.svg.replace(/>([^<>]+)</g, (_, text: string) => `>${inLocale(text)}<`),
    ...(chart.data ? { data: tableInLocale(chart.data, inLocale) } : {}),
  };
}
