/** A table as a grid that is typed into, pasted into, and told what is wrong in it at the cell. */
import { useState } from 'preact/hooks';
import { slideNumber } from '../answers/sweep-controls.js';
import { opened } from '../state/answers.js';
import { withCells, withoutRow, withRows } from '../state/edit-tables.js';
import { cellNumbers } from '../state/slide.js';
import { changeTables, inspection, status, tables } from '../state/store.js';
import { CellField, ComplaintNote } from './cell-field.js';
import { placedComplaints } from './complaints-by-cell.js';
import { type EditGrid, type GridColumn, gridOf } from './grid.js';
import { pastedRows } from './paste.js';
import { TextTable } from './text-table.js';

export function TableGrid({ file }: { readonly file: string }) {
  const [showsAll, setShowsAll] = useState(false);
  const [focused, setFocused] = useState<{ readonly line: number; readonly column: string } | null>(null);
  const grid = gridOf(tables.value, file);
  if (grid === null) return <TextTable file={file} />;
  const shown = grid.columns.filter(({ name, format }) => showsAll || format.needed || grid.given.has(name));
  const hidden = grid.columns.length - shown.length;
  const { complaints } = inspection.value;
  const placed = placedComplaints(
    complaints,
    file,
    grid.rows.map(({ line }) => line),
    shown.map(({ name }) => name),
  );
  const number = cellNumbers.value.find(
    (of) => of.file === file && of.line === focused?.line && of.column === focused.column,
  );
  return (
    <>
      {placed.ofTable.length > 0 && <ComplaintNote complaints={placed.ofTable} />}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by keyboard too */}
      <section class="frame" tabIndex={0} aria-label={`Table ${file}`}>
        <table
          class="grid"
          onKeyDown={stepRows}
          onFocusIn={({ target }) => setFocused(placeOf(target, grid, shown))}
        >
          <thead>
            <tr>
              {shown.map((column) => (
                <Heading key={column.name} column={column} />
              ))}
              <td />
            </tr>
          </thead>
          <tbody>
            {[...grid.rows, null].map((row, r) => (
              <Row key={row?.line ?? 'new'} grid={grid} shown={shown} at={r} placed={placed} />
            ))}
          </tbody>
        </table>
      </section>
      {shown.map(({ name, offers }) => offers.length > 0 && <Offers key={name} name={name} words={offers} />)}
      {number !== undefined && (
        <p>
          <button type="button" onClick={() => drawAgainst(number.path)}>
            Draw a figure against {number.path}
          </button>
        </p>
      )}
      {(hidden > 0 || showsAll) && (
        <button type="button" class="plain" aria-expanded={showsAll} onClick={() => setShowsAll(!showsAll)}>
          {showsAll ? 'Only the columns in use' : `${hidden} more ${hidden === 1 ? 'column' : 'columns'}`}
        </button>
      )}
    </>
  );
}

/** The row and column of a field that has the focus. */
function placeOf(target: EventTarget | null, grid: EditGrid, shown: readonly GridColumn[]) {
  const [, row, column] = (target as HTMLElement).id.split('-');
  const line = grid.rows[Number(row)]?.line;
  const name = shown[Number(column)]?.name;
  return line === undefined || name === undefined ? null : { line, column: name };
}

function drawAgainst(path: string): void {
  slideNumber(path);
  opened.value = new Set([...opened.value, 'sweep']);
  status.value = `A figure is drawn against ${path} under “A figure against one number”.`;
  document.getElementById('answer-sweep')?.scrollIntoView({ block: 'nearest' });
}

function Heading({ column: { name, format } }: { readonly column: GridColumn }) {
  const unit = isUnitSaid(name, format.unit) ? '' : ` ${format.unit}`;
  const blank = format.default === null ? 'needed' : `empty: ${format.default}`;
  return (
    <th scope="col">
      <details class="heading">
        <summary>
          {name}
          {unit !== '' && <span class="unit">{unit}</span>}
        </summary>
        <p>
          {format.meaning}; {format.allowed.replaceAll('`', '')}; {blank}.
        </p>
      </details>
    </th>
  );
}

/** Units that a name says in another form. */
const OTHER_FORMS: Readonly<Record<string, string>> = {
  '%': 'pct',
  V: 'volts',
  mA: 'milliamps',
  min: 'minutes',
};

/** Most names of columns say their unit, such as `cycle_s`: it is not said again. */
function isUnitSaid(name: string, unit: string): boolean {
  if (unit === '' || unit.startsWith('as ')) return true;
  const words = ` ${name.replaceAll('_', ' ')} `;
  return [unit, OTHER_FORMS[unit] ?? unit].some((form) => words.includes(` ${form} `));
}

interface RowProps {
  readonly grid: EditGrid;
  readonly shown: readonly GridColumn[];
  /** Index of the row; the last one is the new row. */
  readonly at: number;
  readonly placed: ReturnType<typeof placedComplaints>;
}

function Row({ grid, shown, at, placed }: RowProps) {
  const { file } = grid;
  const row = grid.rows[at];
  const line = row?.line ?? null;
  const ofRow = line === null ? [] : placed.ofRow(line);
  const names = shown.map(({ name }) => name);
  const paste = (column: string, text: string): void => {
    const changes = pastedRows(grid, names, at, column, text);
    changeTables((now) => withRows(now, file, changes), `Pasted ${changes.length} rows.`);
  };
  return (
    <tr class={line === null ? 'new' : ''}>
      {shown.map((column, c) => (
        <td key={column.name}>
          <CellField
            id={`${file.replace('.csv', '')}-${at}-${c}`}
            label={`${column.name}, ${line === null ? 'new row' : `row ${at + 1}`}`}
            column={column}
            value={row?.cells[grid.columns.indexOf(column)] ?? ''}
            complaints={line === null ? [] : placed.ofCell(line, column.name)}
            onValue={(value) =>
              changeTables(
                (now) => withCells(now, file, line, { [column.name]: value }),
                `${column.name} is ${value === '' ? 'empty' : value}.`,
              )
            }
            onBlock={(text) => paste(column.name, text)}
          />
        </td>
      ))}
      <td class={line !== null && ofRow.length === 0 ? 'remove' : ''}>
        {line !== null && (
          <button
            type="button"
            class="plain"
            aria-label={`Remove row ${at + 1}`}
            onClick={() => changeTables((now) => withoutRow(now, file, line), `Row ${at + 1} removed.`)}
          >
            ×
          </button>
        )}
        {ofRow.length > 0 && <ComplaintNote complaints={ofRow} />}
      </td>
    </tr>
  );
}

function Offers({ name, words }: { readonly name: string; readonly words: readonly string[] }) {
  return (
    <datalist id={`offers-${name}`}>
      {words.map((word) => (
        <option key={word} value={word} />
      ))}
    </datalist>
  );
}

/** Enter and the arrows up and down go to the same column of the next row. */
function stepRows(event: KeyboardEvent): void {
  const field = event.target as HTMLElement;
  if (field.tagName !== 'INPUT') return;
  const by = event.key === 'ArrowUp' ? -1 : event.key === 'ArrowDown' || event.key === 'Enter' ? 1 : 0;
  const [table, row, column] = field.id.split('-');
  if (by === 0 || column === undefined) return;
  const next = document.getElementById(`${table}-${Number(row) + by}-${column}`);
  if (next === null) {
    if (event.key === 'Enter') field.blur();
    return;
  }
  event.preventDefault();
  next.focus();
}
