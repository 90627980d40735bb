/** Holds the estimate of a cell against its log: what was off, what the schedule gives with the measured values, rows. */
import { resolve } from 'node:path';
import { compareLog } from '../core/log/against/compare-log.js';
import type { Expected, VariationRow } from '../core/log/against/compared.js';
import type { LogAnalysis } from '../core/log/log-analysis.js';
import type { LogResult } from '../core/log/log-result.js';
import type { Cell } from '../core/model/cell.js';
import type { ScheduleOutcome } from '../core/schedule/result.js';
import { shiftYield } from '../core/shifts/shift-yield.js';
import { readCellFolder } from '../files/read-cell-folder.js';
import type { AgainstView, Rate } from '../render/log-against.js';
import { applySettings, splitSetting } from '../tables/overrides/apply-settings.js';
import { changedRows, type PasteTable } from '../tables/overrides/changed-rows.js';
import { tableText } from '../tables/table-text.js';
import type { Io } from './io.js';
import { searched } from './schedule-outcome.js';

export interface LogOfCell {
  readonly cell: Cell;
  readonly folder: string;
  readonly pattern: string | null;
  readonly result: LogResult;
  readonly analysis: LogAnalysis;
}

export async function holdAgainst(of: LogOfCell, io: Io): Promise<AgainstView> {
  const { cell, result, analysis, pattern } = of;
  const estimate = searched(cell, io);
  const comparison = compareLog(cell, result, analysis, expected(cell, estimate, pattern));
  const { tables, measuredCell } = await measuredTables(of, comparison.settings, io);
  const unchanged = comparison.settings.length === 0;
  const measured = unchanged ? estimate : measuredCell === null ? null : searched(measuredCell, io);
  return {
    ...comparison,
    estimate: rateOf(estimate),
    withMeasured: measured === null ? null : rateOf(measured),
    logPartsPerH: result.partsCountedBy === 'nothing' ? null : result.partsPerH.total!,
    rows: [...tables, ...variationTable(comparison.variation)],
  };
}

function expected(cell: Cell, outcome: ScheduleOutcome, pattern: string | null): Expected | null {
  if (!('order' in outcome)) return null;
  return {
    schedule: outcome,
    week: pattern === null ? null : shiftYield(cell, outcome, pattern, { program: 'best' }),
  };
}

function rateOf(outcome: ScheduleOutcome): Rate {
  if (!('order' in outcome)) return { partsPerH: null, periodS: null, proven: false, reason: outcome.reason };
  const { partsPerH, periodS, proven } = outcome;
  return { partsPerH: partsPerH.total!, periodS, proven, reason: null };
}

/** The tables with the measured values: as rows to paste, and as a cell. A change of the command line gives way. */
async function measuredTables(
  { folder }: LogOfCell,
  settings: readonly string[],
  io: Io,
): Promise<{ tables: PasteTable[]; measuredCell: Cell | null }> {
  const measured = new Set(settings.map((text) => splitSetting(text)?.path));
  const kept = (io.settings ?? []).filter((text) => !measured.has(splitSetting(text)?.path));
  const read = await readCellFolder(resolve(io.cwd, folder), [...kept, ...settings]);
  const tables =
    read.layers === null ? [] : changedRows(read.layers.tables, applySettings(read.layers, settings).tables);
  return { tables, measuredCell: read.cell };
}

function variationTable(rows: readonly VariationRow[]): PasteTable[] {
  if (rows.length === 0) return [];
  const cells = rows.map(({ station, element, distribution, a, b, c }) => [
    station,
    element,
    distribution,
    a,
    b,
    c,
  ]);
  const texts = tableText(cells).trimEnd().split('\n');
  return [{ file: 'variation.csv', header: 'station,element,distribution,a,b,c', rows: texts }];
}
