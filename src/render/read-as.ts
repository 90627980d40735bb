/** What was read as something else than it says, for `check`: alike readings of one column on one line. */
import { firstFew } from '../core/model/first-few.js';
import type { ReadAs } from '../tables/complaint-list.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { visibleText } from './visible-text.js';

const PLACES_NAMED = 8;

/** @returns an empty text where nothing was */
export function readAsText(notes: readonly ReadAs[], style: TextStyle): string {
  if (notes.length === 0) return '';
  const groups = new Map<string, ReadAs[]>();
  for (const note of notes) {
    const key = [note.file, note.cell?.split('!')[0], note.column, note.found, note.taken].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), note]);
  }
  const lines = [...groups.values()].map((group) =>
    paragraph(visibleText(lineOf(group)), style.columns, '  ', '    '),
  );
  return `Read as something else than written; check that it is what you mean:\n${lines.join('\n')}\n`;
}

function lineOf(group: readonly ReadAs[]): string {
  const { found, taken } = group[0]!;
  return `${placeOf(group)}: ${found} is read as ${taken}.`;
}

function placeOf(group: readonly ReadAs[]): string {
  const { file, line, column, cell } = group[0]!;
  if (cell !== undefined)
    return `${file}, ${firstFew(
      group.map((note) => note.cell!),
      PLACES_NAMED,
    )}`;
  const lines = group.flatMap((note) => (note.line === null ? [] : [note.line]));
  const where =
    line === null ? '' : `, line${lines.length === 1 ? '' : 's'} ${firstFew(lines, PLACES_NAMED)}`;
  return `${file}${where}${column === null ? '' : `, column ${column}`}`;
}
