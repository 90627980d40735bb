/** A table whose text cannot be shown as a grid, or has none: the text itself, with what is wrong in it. */

import { keyedTable } from '../../tables/overrides/keyed-tables.js';
import { withTable } from '../state/edit-tables.js';
import { changeTables, inspection, tables } from '../state/store.js';
import { ComplaintNote } from './cell-field.js';

export function TextTable({ file }: { readonly file: string }) {
  const text = Object.hasOwn(tables.value, file) ? tables.value[file] : undefined;
  if (text === undefined)
    return (
      <p>
        This cell has no {file}.{' '}
        <button
          type="button"
          disabled={keyedTable(file) === undefined}
          onClick={() => changeTables((now) => withTable(now, file), `${file} is begun.`)}
        >
          Begin {file}
        </button>
      </p>
    );
  const complaints = inspection.value.complaints.filter((complaint) => complaint.file === file);
  return (
    <>
      <ComplaintNote complaints={complaints} />
      <label>
        The text of {file}
        <textarea
          rows={14}
          value={text}
          spellcheck={false}
          onChange={(event) => {
            const { value } = event.currentTarget;
            changeTables((now) => ({ ...now, [file]: value }), `${file} is changed.`);
          }}
        />
      </label>
    </>
  );
}
