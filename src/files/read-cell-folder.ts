/** Reads a cell from its folder or workbook: the files and all rules on them in one run. */
import type { Cell } from '../core/model/cell.js';
import type { Complaint } from '../core/model/complaint.js';
import type { ReadAs } from '../tables/complaint-list.js';
import { inspectLayers } from '../tables/overrides/inspect-layers.js';
import type { LayeredTables } from '../tables/overrides/layered-tables.js';
import { notePlacedInBooks, placedInBooks } from '../workbook/place-in-book.js';
import { readLayers } from './read-layers.js';
import type { InputFile } from './read-table-file.js';

export interface CellFolder {
  /** The cell; null when there is an error. */
  readonly cell: Cell | null;
  readonly complaints: readonly Complaint[];
  readonly inputs: readonly InputFile[];
  /** What was changed against the tables of the folder or its base, in sentences. */
  readonly notes: readonly string[];
  /** What was read as something else than it says. */
  readonly readAs: readonly ReadAs[];
  /** The tables put together, without the changes; null where they could not be read. */
  readonly layers: LayeredTables | null;
}

/** @param settings single cells changed from outside, such as `robot.hands=2` */
export async function readCellFolder(path: string, settings: readonly string[] = []): Promise<CellFolder> {
  const { layers, inputs, isThere, places, readAs } = await readLayers(path);
  const placed = (complaints: readonly Complaint[]): Complaint[] =>
    placedInBooks(places, [...complaints].sort(byFile));
  if (!isThere)
    return { cell: null, complaints: placed(layers.complaints), inputs, notes: [], readAs: [], layers: null };
  const inspection = inspectLayers(layers, settings);
  return {
    cell: inspection.cell,
    complaints: placed(inspection.complaints),
    inputs,
    notes: inspection.notes,
    readAs: [...readAs, ...inspection.readAs].map((note) => notePlacedInBooks(places, note)),
    layers,
  };
}

/** A stable sort: the order within a file stays. */
function byFile(a: Complaint, b: Complaint): number {
  return a.file === b.file ? 0 : a.file < b.file ? -1 : 1;
}
