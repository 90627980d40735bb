/** One number of the cell that is slid, and the figure that is drawn against it. */
import { computed, signal } from '@preact/signals';
import type { Tables } from '../../tables/inspect-tables.js';
import { changeableColumns, keyedTables } from '../../tables/overrides/keyed-tables.js';
import { draftCell, draftOf, keyOf, sheetIn } from '../../tables/overrides/table-draft.js';
import type { SweepWanted } from '../engine/messages.js';
import { tables } from './store.js';

export interface CellNumber {
  /** As the command `sweep` names it, such as `stations.mill_1.ready_s`. */
  readonly path: string;
  readonly value: number;
  readonly unit: string;
  readonly file: string;
  readonly line: number;
  readonly column: string;
}

export interface Slide {
  readonly path: string;
  /** Path of the figure, as `sweep` names it. */
  readonly figure: string;
  /** Ends of the slider; null = half and one and a half times the value. */
  readonly from: number | null;
  readonly to: number | null;
}

/** What is slid; null until a number is chosen. */
export const slide = signal<Slide | null>(null);

const PLAIN = /^[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)$/;

/** Every number that the tables give, by its path; a row whose name another row has too is passed over. */
export function numbersOf(of: Tables): CellNumber[] {
  const found = keyedTables.flatMap((table): CellNumber[] => {
    const sheet = sheetIn(of, table.file);
    if (sheet === null) return [];
    const draft = draftOf(table, sheet);
    return draft.rows.flatMap((row) =>
      changeableColumns(table).flatMap((column) => {
        const text = draftCell(draft, row, column);
        if (!PLAIN.test(text)) return [];
        const value = Number(text.replace(',', '.'));
        const key = keyOf(draft, row).join('.');
        const path = [table.name, key, ...(table.only === undefined ? [column] : [])].join('.');
        const { unit } = table.columns[column]!;
        return [
          { path, value, unit: unit.startsWith('as ') ? '' : unit, file: table.file, line: row.line, column },
        ];
      }),
    );
  });
  const paths = found.map(({ path }) => path);
  return found.filter(({ path }) => paths.indexOf(path) === paths.lastIndexOf(path));
}

export const cellNumbers = computed(() => numbersOf(tables.value));

/** The number that is slid; null where the tables have lost it. */
export const slidNumber = computed(
  () => cellNumbers.value.find(({ path }) => path === slide.value?.path) ?? null,
);

const STEPS = 20;

/** Values of the slider from one end to the other, in few digits, each once. */
export function slideValues(value: number, { from, to }: Pick<Slide, 'from' | 'to'>): string[] {
  const ends = endsOf(value, { from, to });
  const isWhole = Number.isInteger(value) && Number.isInteger(ends[0]) && Number.isInteger(ends[1]);
  const values = Array.from({ length: STEPS + 1 }, (_, k) => {
    const exact = ends[0] + ((ends[1] - ends[0]) * k) / STEPS;
    return String(isWhole ? Math.round(exact) : Number(exact.toPrecision(4)));
  });
  return [...new Set(values)];
}

export function endsOf(value: number, { from, to }: Pick<Slide, 'from' | 'to'>): readonly [number, number] {
  const [least, most] =
    value === 0 ? [0, 10] : value > 0 ? [value / 2, value * 1.5] : [value * 1.5, value / 2];
  const tidy = (end: number): number =>
    Number.isInteger(value) ? Math.round(end) : Number(end.toPrecision(4));
  const [a, b] = [from ?? tidy(least), to ?? tidy(most)];
  return a <= b ? [a, b] : [b, a];
}

/** The sweep that is drawn; null where nothing is slid. */
export const sweepWanted = computed((): SweepWanted | null => {
  const number = slidNumber.value;
  if (number === null || slide.value === null) return null;
  const { path, unit, value } = number;
  const values = slideValues(value, slide.value);
  return { tables: tables.value, path, unit, values, now: value, figure: slide.value.figure };
});
