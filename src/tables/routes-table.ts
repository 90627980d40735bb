/** routes.csv: the ordered steps of each part, from an infeed to an outfeed. */
import type { Route, StationKind, Step } from '../core/model/cell.js';
import { choiceCount, WAY_LIMIT, wayCount } from '../core/schedule/plan/paths.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { tableLimits } from './limits.js';
import { type RouteRow, routeColumns } from './route-columns.js';
import { checkRoute } from './route-rules.js';
import { cellText, reportCell, reportTable, type Sheet } from './sheet.js';
import { typedRows } from './typed-rows.js';

/** @param kinds the known stations with their kinds */
export function readRoutes(sheet: Sheet, kinds: KnownNames<StationKind | null>): Route[] {
  const rows = typedRows(sheet, routeColumns);
  for (const row of rows) checkStations(sheet, row, kinds);
  const routes = rowsByPart(rows);
  const complete = completeParts(sheet, rows);
  for (const [part, steps] of routes) checkRoute(sheet, steps, kinds, complete.has(part));
  if (routes.size > tableLimits.parts) reportTable(sheet, tooMany(routes.size));
  const read = [...routes].map(([part, own]) => ({
    part,
    rows: own,
    steps: own.map((r) => stepOf(r, kinds)),
  }));
  checkPaths(sheet, read);
  return read.map(({ part, steps }) => ({ part, steps }));
}

function tooMany(count: number) {
  const text = `the table lists ${count} parts, at most ${tableLimits.parts} are read`;
  return { code: 'ROU10', text, help: 'Plan families of parts with like times as one part.' } as const;
}

/** Alternatives multiply from step to step: beyond the limit `schedule` plays the cell and searches no part sets. */
function checkPaths(sheet: Sheet, routes: readonly (Route & { readonly rows: readonly RouteRow[] })[]): void {
  const paths = routes.reduce((sum, { steps }) => sum + wayCount(steps), 0);
  if (paths <= WAY_LIMIT) return;
  const most = routes.reduce((top, route) => (wayCount(route.steps) > wayCount(top.steps) ? route : top));
  const choices = most.steps.map(choiceCount);
  const { row } = most.rows[choices.indexOf(Math.max(...choices))]!;
  reportCell(sheet, row, 'stations', 'ROU17', () => ({
    severity: 'warning',
    text: `the alternatives give ${paths} paths through the cell, ${wayCount(most.steps)} of them for ${inBackticks(most.part)}; up to ${WAY_LIMIT} are searched one by one`,
    help: '`schedule` then compares only what the dispatch rules and runs of the cell make, takes long and proves little: name fewer stations in a step, or enter machines that are alike as one station with a capacity.',
  }));
}

function checkStations(sheet: Sheet, { row, values }: RouteRow, kinds: KnownNames<StationKind | null>): void {
  for (const { name, span } of values.stations)
    checkReference(sheet, row, { code: 'VAL09', column: 'stations', name, span }, kinds);
}

function rowsByPart(rows: readonly RouteRow[]): Map<string, RouteRow[]> {
  const byPart = new Map<string, RouteRow[]>();
  for (const row of rows) {
    const steps = byPart.get(row.values.part);
    if (steps) steps.push(row);
    else byPart.set(row.values.part, [row]);
  }
  return byPart;
}

/**
 * Parts of which every row could be read: only their first and last steps are known for certain. A row without a part
 * may belong to the one above.
 */
function completeParts(sheet: Sheet, rows: readonly RouteRow[]): Set<string> {
  const complete = new Set(rows.map((r) => r.values.part));
  if (!sheet.isWhole) return new Set();
  const read = new Set(rows.map((r) => r.row));
  let above = '';
  for (const row of sheet.rows) {
    above = cellText(sheet, row, 'part') || above;
    if (!read.has(row)) complete.delete(above);
  }
  return complete;
}

/** What an infeed or outfeed does not have, robot times and longest waits, is left out; a warning has said so. */
function stepOf({ values, at }: RouteRow, kinds: KnownNames<StationKind | null>): Step {
  const kind = kinds?.get(values.stations[0]?.name ?? '');
  return {
    step: values.step,
    stations: values.stations.map((s) => s.name),
    cycleS: values.cycle_s,
    loadS: kind === 'infeed' ? 0 : values.load_s,
    unloadS: kind === 'outfeed' ? 0 : values.unload_s,
    maxWaitS: kind === 'infeed' || kind === 'outfeed' ? null : values.max_wait_s,
    partsPerCycle: values.parts_per_cycle,
    everyParts: values.every,
    at,
  };
}
