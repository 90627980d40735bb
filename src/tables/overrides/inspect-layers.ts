/** Inspects tables that were put together and changed, and tells every complaint of its own place. */
import type { Cell } from '../../core/model/cell.js';
import type { Complaint } from '../../core/model/complaint.js';
import type { ReadAs } from '../complaint-list.js';
import { inspectTables } from '../inspect-tables.js';
import type { TableMemory } from '../table-memory.js';
import { applySettings } from './apply-settings.js';
import { type LayeredTables, placedComplaint, placedNote } from './layered-tables.js';

export interface LayersInspected {
  /** null when there is an error. */
  readonly cell: Cell | null;
  readonly complaints: readonly Complaint[];
  readonly notes: readonly string[];
  /** What was read as something else than it says, by the place where it stands. */
  readonly readAs: readonly ReadAs[];
}

/**
 * @param settings single cells changed from outside, such as `robot.hands=2`
 * @param memory what was read before, where the same tables are read over and over
 */
export function inspectLayers(
  layers: LayeredTables,
  settings: readonly string[] = [],
  memory: TableMemory | null = null,
): LayersInspected {
  const changed = applySettings(layers, settings);
  const inspection = inspectTables(changed.tables, changed.unread, memory);
  const complaints = [
    ...changed.complaints,
    ...inspection.complaints.map((c) => placedComplaint(changed, c)),
  ];
  const readAs = [
    ...[...changed.readAs.values()].flat(),
    ...inspection.readAs.map((note) => placedNote(changed, note)),
  ];
  const isWrong = complaints.some((c) => c.severity === 'error');
  return { cell: isWrong ? null : inspection.cell, complaints, notes: changed.notes, readAs };
}
