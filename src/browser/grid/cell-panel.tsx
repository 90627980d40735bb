/** The inputs: one sheet of the cell at a time, with how much is wrong on each. */
import { signal } from '@preact/signals';
import { tableFormats } from '../../tables/table-formats.js';
import { FloorPanel } from '../floor/floor-panel.js';
import { withoutTable } from '../state/edit-tables.js';
import { changeTables, inspection, tables } from '../state/store.js';
import { TableGrid } from './table-grid.js';

/** The drawing of the floor, among the tables. */
const FLOOR = 'floor';

const shown = signal(FLOOR);

/** Shows the table that a complaint is about. */
export function showTable(file: string): void {
  shown.value = file;
}

export function CellPanel() {
  const others = Object.keys(tables.value).filter(
    (file) => !tableFormats.some((format) => format.file === file),
  );
  const sheets = [FLOOR, ...tableFormats.map(({ file }) => file), ...others];
  const format = tableFormats.find(({ file }) => file === shown.value);
  return (
    <section class="cell" aria-labelledby="cell-title">
      <h2 id="cell-title">The cell</h2>
      <div class="tabs" role="tablist" aria-label="Floor and tables of the cell" onKeyDown={stepTabs}>
        {sheets.map((file) => (
          <Tab key={file} file={file} />
        ))}
      </div>
      <div role="tabpanel" id="sheet" aria-labelledby={`tab-${shown.value}`}>
        {format !== undefined && (
          <p class="note">
            {format.file}: {format.meaning}.{format.needed ? '' : ' It may be left out.'}
          </p>
        )}
        {shown.value === FLOOR ? <FloorPanel /> : <TableGrid key={shown.value} file={shown.value} />}
        {format?.needed === false && Object.hasOwn(tables.value, shown.value) && (
          <button
            type="button"
            class="plain"
            onClick={() =>
              changeTables((now) => withoutTable(now, shown.value), `${shown.value} is taken out.`)
            }
          >
            Take {shown.value} out of the cell
          </button>
        )}
      </div>
    </section>
  );
}

function Tab({ file }: { readonly file: string }) {
  const isShown = file === shown.value;
  const errors = inspection.value.complaints.filter((c) => c.file === file && c.severity === 'error').length;
  const isThere = file === FLOOR || Object.hasOwn(tables.value, file);
  return (
    <button
      type="button"
      role="tab"
      id={`tab-${file}`}
      aria-controls="sheet"
      aria-selected={isShown}
      tabIndex={isShown ? 0 : -1}
      class={isThere ? '' : 'absent'}
      onClick={() => showTable(file)}
    >
      {file.replace('.csv', '')}
      {errors > 0 && <span class="count"> {errors === 1 ? '1 error' : `${errors} errors`}</span>}
    </button>
  );
}

/** Arrow keys, Home and End go from tab to tab. */
function stepTabs(event: KeyboardEvent): void {
  const tabs = [...(event.currentTarget as HTMLElement).querySelectorAll<HTMLElement>('[role=tab]')];
  const at = tabs.indexOf(event.target as HTMLElement);
  const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: tabs.length - 1 }[event.key];
  if (at === -1 || to === undefined) return;
  event.preventDefault();
  const next = tabs[(to + tabs.length) % tabs.length]!;
  next.click();
  next.focus();
}
