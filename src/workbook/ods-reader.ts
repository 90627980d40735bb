/**
 * Reads the sheets of an .ods file (OASIS Open Document Format 1.3). Rows in groups and rows that repeat on every printed
 * page count like the others, which the libraries that were tried pass over; formulas are never worked out.
 */
import { strFromU8, unzipSync } from 'fflate';
import { SaxesParser } from 'saxes';
import { type Grid, type GridArea, type GridCell, type WantedSheet, WorkbookFault } from './grid.js';

type Attributes = Readonly<Record<string, string>>;

interface OpenGrid {
  readonly name: string;
  readonly isHidden: boolean;
  readonly rows: Map<number, Map<number, GridCell>>;
  readonly merges: GridArea[];
  readonly hiddenRows: number[];
}

/** Repeated cells or rows that hold something beyond this are a fault or a trick. */
const MOST_REPEATED = 100_000;

export function readOdsGrids(
  bytes: Uint8Array,
  wanted: WantedSheet,
): { readonly grids: readonly Grid[]; readonly names: readonly string[] } {
  const content = unzipSync(bytes, { filter: ({ name }) => name === 'content.xml' })['content.xml'];
  if (content === undefined)
    throw new WorkbookFault(
      'damaged',
      'it lacks its content',
      'Open it in the office program and save it anew.',
    );
  const reader = new SheetReader(wanted);
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => reader.open(name, attributes as Attributes));
  parser.on('closetag', ({ name }) => reader.close(name));
  parser.on('text', (text) => reader.text(text));
  parser.on('cdata', (text) => reader.text(text));
  parser.write(strFromU8(content)).close();
  return { grids: reader.grids, names: reader.names };
}

class SheetReader {
  readonly grids: Grid[] = [];
  readonly names: string[] = [];
  private grid: OpenGrid | null = null;
  private isSkipped = false;
  private row = 0;
  private rowRepeat = 1;
  private rowCells = new Map<number, GridCell>();
  private isRowHidden = false;
  private column = 0;
  private cell: Attributes | null = null;
  private paragraphs: string[] = [];
  /** Depth of notes and drawings inside a cell, whose texts are not the cell's. */
  private beside = 0;
  private isInParagraph = false;
  private readonly hiddenStyles = new Set<string>();
  private style = '';

  open(name: string, a: Attributes): void {
    if (name === 'style:style') this.style = a['style:name'] ?? '';
    else if (name === 'style:table-properties' && a['table:display'] === 'false')
      this.hiddenStyles.add(this.style);
    else if (name === 'table:table' && this.cell === null) this.openTable(a);
    else if (this.grid === null || this.isSkipped) return;
    else if (name === 'table:table-row') this.openRow(a);
    else if (name === 'table:table-cell' || name === 'table:covered-table-cell') {
      this.cell = a;
      this.paragraphs = [];
    } else if (this.cell !== null) this.openInside(name, a);
  }

  private openTable(a: Attributes): void {
    const name = a['table:name'] ?? '';
    this.names.push(name);
    this.isSkipped = !(name !== '' && this.wanted(name));
    const isHidden = this.hiddenStyles.has(a['table:style-name'] ?? '');
    this.grid = { name, isHidden, rows: new Map(), merges: [], hiddenRows: [] };
    this.row = 0;
  }

  private openRow(a: Attributes): void {
    this.rowRepeat = repeats(a['table:number-rows-repeated']);
    this.isRowHidden = a['table:visibility'] === 'collapse' || a['table:visibility'] === 'filter';
    this.rowCells = new Map();
    this.column = 0;
  }

  private openInside(name: string, a: Attributes): void {
    if (name === 'office:annotation' || name === 'draw:frame' || name === 'draw:custom-shape')
      this.beside += 1;
    if (this.beside > 0) return;
    if (name === 'text:p') {
      this.paragraphs.push('');
      this.isInParagraph = true;
    } else if (name === 'text:s') this.text(' '.repeat(Math.min(1000, repeats(a['text:c']))));
    else if (name === 'text:line-break') this.text('\n');
    else if (name === 'text:tab') this.text('\t');
  }

  text(text: string): void {
    if (this.cell === null || this.beside > 0 || !this.isInParagraph || this.isSkipped) return;
    this.paragraphs.push(`${this.paragraphs.pop() ?? ''}${text}`);
  }

  close(name: string): void {
    if (this.grid === null) return;
    if (this.cell !== null && this.beside > 0) {
      if (name === 'office:annotation' || name === 'draw:frame' || name === 'draw:custom-shape')
        this.beside -= 1;
      return;
    }
    if (name === 'text:p') this.isInParagraph = false;
    else if (name === 'table:table-cell' || name === 'table:covered-table-cell') this.closeCell(name);
    else if (name === 'table:table-row' && !this.isSkipped) this.closeRow(this.grid);
    else if (name === 'table:table') {
      if (!this.isSkipped) this.grids.push(this.grid);
      this.grid = null;
    }
  }

  private closeCell(name: string): void {
    const { cell, grid } = this;
    if (cell === null || grid === null) return;
    const count = repeats(cell['table:number-columns-repeated']);
    const value = name === 'table:covered-table-cell' ? null : cellOf(cell, this.paragraphs.join('\n'));
    if (value !== null) {
      checkRepeats(count, grid.name);
      for (let i = 0; i < count; i += 1) this.rowCells.set(this.column + i, value);
    }
    const across = repeats(cell['table:number-columns-spanned']);
    const down = repeats(cell['table:number-rows-spanned']);
    if (across > 1 || down > 1)
      grid.merges.push({
        fromRow: this.row,
        fromColumn: this.column,
        toRow: this.row + down - 1,
        toColumn: this.column + across - 1,
      });
    this.column += count;
    this.cell = null;
  }

  private closeRow(grid: OpenGrid): void {
    if (this.rowCells.size > 0) {
      checkRepeats(this.rowRepeat * this.rowCells.size, grid.name);
      for (let i = 0; i < this.rowRepeat; i += 1) {
        grid.rows.set(this.row + i, this.rowCells);
        if (this.isRowHidden) grid.hiddenRows.push(this.row + i);
      }
    }
    this.row += this.rowRepeat;
  }

  constructor(private readonly wanted: WantedSheet) {}
}

function repeats(text: string | undefined): number {
  const count = Math.trunc(Number(text ?? '1'));
  return Number.isFinite(count) && count >= 1 ? count : 1;
}

function checkRepeats(count: number, sheet: string): void {
  if (count <= MOST_REPEATED) return;
  throw new WorkbookFault(
    'too large',
    `its sheet \`${sheet}\` repeats filled cells ${count} times`,
    'Take out what was filled down to the end of the sheet.',
  );
}

function cellOf(a: Attributes, text: string): GridCell | null {
  const kind = a['office:value-type'] ?? a['calcext:value-type'] ?? '';
  const formula = a['table:formula'];
  const value = valueIn(kind, a, text);
  if (formula !== undefined && (value === null || (kind === '' && text === '')))
    return { kind: 'no result', formula: formula.replace(/^(of|oooc|msoxl):?=?/, '') };
  if (value === null) return null;
  const isError =
    a['calcext:value-type'] === 'error' || (formula !== undefined && /^(#[A-Z/0!?]+|Err:\d+)$/.test(text));
  return isError ? { kind: 'error', text } : value;
}

function valueIn(kind: string, a: Attributes, text: string): GridCell | null {
  const number = Number(a['office:value']);
  if ((kind === 'float' || kind === 'currency') && Number.isFinite(number))
    return { kind: 'number', value: number, isPercent: false };
  if (kind === 'percentage' && Number.isFinite(number))
    return { kind: 'number', value: number, isPercent: true };
  if (kind === 'boolean') return { kind: 'boolean', value: a['office:boolean-value'] === 'true' };
  if (kind === 'time') return timeCell(a['office:time-value'] ?? '', text);
  if (kind === 'date') return { kind: 'date', text: (a['office:date-value'] ?? text).slice(0, 10) };
  const shown = text === '' ? (a['office:string-value'] ?? '') : text;
  return shown === '' ? null : { kind: 'text', text: shown };
}

/** A duration as XML Schema writes it, such as `PT06H30M00S`. */
function timeCell(duration: string, shown: string): GridCell | null {
  const parts = /^(-)?P(?:(\d+)D)?T(?:(\d+)H)?(?:(\d+)M)?(?:([\d.,]+)S)?$/.exec(duration);
  if (!parts) return shown === '' ? null : { kind: 'text', text: shown };
  const [, sign, days, hours, minutes, seconds] = parts;
  const size =
    Number(days ?? 0) * 86_400 +
    Number(hours ?? 0) * 3600 +
    Number(minutes ?? 0) * 60 +
    Number((seconds ?? '0').replace(',', '.'));
  return {
    kind: 'time',
    seconds: Math.round(sign === undefined ? size : -size),
    hasSeconds: /:\d\d:\d\d/.test(shown),
  };
}
