/** Where each figure comes from: its formula, and its inputs with the file and line that gave them. */
import type { Cell } from '../../model/cell.js';
import type { CaseInputs } from '../case-inputs.js';
import type { AuditEntry } from '../result.js';
import type { StandingFacts } from '../standing/standing-facts.js';
import { type AuditFigures, caseEntries } from './audit-case.js';
import { itemReader } from './audit-inputs.js';
import { stationEntries } from './audit-stations.js';

/** @param facts what the schedule says of each machine's hour; null = not scheduled */
export function auditOf(
  cell: Cell,
  inputs: CaseInputs,
  facts: StandingFacts | null,
  figures: AuditFigures,
): AuditEntry[] {
  const item = itemReader(cell, inputs);
  const machines = inputs.stations.flatMap((station, k) => {
    const breakEven = figures.breakEvenChangeovers.byStation[station.station] ?? null;
    return stationEntries({ cell, inputs, facts, station, result: figures.byStation[k]!, breakEven, item });
  });
  return [...machines, ...caseEntries(figures, item)];
}
