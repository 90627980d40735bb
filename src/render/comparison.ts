/** A comparison as text: the answer, the cells side by side, the differences, what differs in the tables. */

import type { CellComparison } from '../core/compare/comparison.js';
import { firstFew } from '../core/model/first-few.js';
import { listText } from '../core/model/list-text.js';
import { movedStations } from './moved-stations.js';
import { numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import { differenceTable, type FolderChanges, sideBySideTable } from './result-tables/comparison-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

/** Changes listed in a short answer. */
const FEW_CHANGES = 5;

/** Changes listed on a screen; all are in the JSON. */
const MOST_CHANGES = 30;

export function renderComparison(
  result: CellComparison,
  changes: readonly FolderChanges[],
  currency: string,
  style: TextStyle,
): string {
  const { said, section } = printer(style);
  const table = sideBySideTable(result, style.full === true);
  const money = currency === '' || !table.hasMoney ? '' : ` (money in ${currency})`;
  return pieces(
    said(result.recommendation),
    section(`Side by side${money}`, table),
    // The answer gives the difference of the best and the next.
    style.full &&
      result.differences.length > 0 &&
      section('Differences in simulated good parts a shift', differenceTable(result.differences)),
    ...changes
      .filter((of) => isShown(of, changes, style))
      .map((of) =>
        section(
          paragraph(`Changes from ${of.a} to ${of.b}`, style.columns),
          of.changes.length === 0 ? changeLines(of).join('') : changeLines(of),
        ),
      ),
    elsewhere(result, changes, style),
  );
}

function isShown({ changes }: FolderChanges, all: readonly FolderChanges[], { full }: TextStyle): boolean {
  return full === true || (all.length === 1 && changes.length <= FEW_CHANGES);
}

/** What is too much for a short answer, and where it stands; a screen has no plan of the stations, the files of `--out` have. */
function elsewhere(result: CellComparison, changes: readonly FolderChanges[], style: TextStyle): string {
  const moved = [...new Set(movedStations(result).flat())];
  const hidden = changes.filter((of) => !isShown(of, changes, style));
  const texts = [
    ...(moved.length === 0
      ? []
      : [`Placed elsewhere or not in every cell: ${firstFew(moved, MOST_NAMES)} (--out)`]),
    ...(hidden.length === 0
      ? []
      : [
          `Values that differ from the first cell: ${listText(hidden.map((of) => numberText(of.changes.length)))} (--full)`,
        ]),
  ];
  return texts.length === 0 ? '' : printer(style).said(...texts);
}

/** Names beyond this many are counted. */
const MOST_NAMES = 2;

/** What differs, cell by cell; a sentence where nothing does. */
export function changeLines({ changes }: FolderChanges): string[] {
  if (changes.length === 0) return ['Nothing: the tables say the same.'];
  const text = (value: string | null): string =>
    value === null ? 'not there' : value === '' ? 'empty' : value;
  const lines = changes
    .slice(0, MOST_CHANGES)
    .map((c) => `${c.table}: ${c.path}: ${text(c.a)}, then ${text(c.b)}`);
  const more =
    changes.length > MOST_CHANGES
      ? [`and ${changes.length - MOST_CHANGES} more, all of which --json lists`]
      : [];
  return [...lines, ...more];
}
