// A report of a small cell of two machines, worked out once, with names as the test likes them.

import { compareCells } from '../../../src/core/compare/compare-cells.js';
import { productMix } from '../../../src/core/mix/product-mix.js';
import { assembleReport, type ReportResults } from '../../../src/core/report/report-results.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import type { ReportFacts } from '../../../src/render/report-page/report-view.js';
import { highsSolver } from '../../../src/solver/highs-solver.js';
import type { Tables } from '../../../src/tables/inspect-tables.js';
import { plainLayer } from '../../../src/tables/overrides/layered-tables.js';
import { readCell } from '../../../src/tables/read-cell.js';
import { shownTables } from '../../../src/tables/shown-tables.js';
import { runReport } from '../../../src/workers/run-report.js';

/** Two machines side by side, one part each, all that is optional left out. They keep the robot busy: there is little to size. */
export const smallTables = {
  'stations.csv': 'station,kind\nrack,infeed\nmill,machine\nlathe,machine\npallet,outfeed\n',
  'routes.csv':
    'part,step,stations,cycle_s,load_s,unload_s\ncap,1,rack,,,4\ncap,2,mill,30,8,6\ncap,3,pallet,,4,\nring,1,rack,,,4\nring,2,lathe,25,8,6\nring,3,pallet,,4,\n',
  'robot.csv': 'setting,value\nhands,1\ntravel_s,3\n',
};

export interface SmallReport {
  readonly results: ReportResults;
  readonly facts: ReportFacts;
}

export async function smallReport(tables: Tables = smallTables, name = 'small'): Promise<SmallReport> {
  const cell = readCell(tables);
  const schedule = bestSchedule(cell, { improvements: false }) as ScheduleFound;
  const { grown, done } = await runReport({ cell, schedule }, { workers: 1 });
  const mix = cell.parts.length > 0 ? productMix(cell, await highsSolver()) : null;
  return {
    results: assembleReport(cell, schedule, grown, done, null, mix),
    facts: {
      name,
      currency: '',
      tables: shownTables(plainLayer(tables)),
      files: Object.keys(tables).map((file) => ({ file, sha256: '0'.repeat(64) })),
      program: 'roundsman 0',
      warnings: [],
      notes: [],
      changes: [],
    },
  };
}

const hostileNames: Readonly<Record<string, string>> = {
  mill: '<script>alert(1)</script>',
  lathe: '"><img src=x onerror=alert(1)>',
  rack: "=1+cmd('/c calc')",
  pallet: 'javascript:alert(1)',
  cap: '</title><svg onload=alert(1)>',
  ring: '`code` [a](javascript:b) *c*',
  week: '<svg/onload=alert(2)>',
  early: '"onload="alert(3)',
  rush: '=cmd|"/c calc"!A1',
  slow: '@SUM(1)<b>',
  rest: '🤖<u>|[x](javascript:y)',
};

/** Names of folders may hold what names of tables may not. */
const hostileFolder = `\u202E<b>\u200F${'w'.repeat(200)}\u2066=1+1`;

/** The same cell with jobs and a second folder, and names that would like to be more than names. */
export function hostileReport(): Promise<SmallReport> {
  hostile ??= workedHostile();
  return hostile;
}

let hostile: Promise<SmallReport> | null = null;

async function workedHostile(): Promise<SmallReport> {
  const tables = {
    ...smallTables,
    'shifts.csv':
      'pattern,shift,days,start,end,breaks,attended,operators,labour_per_h\nweek,early,Mon,06:00,14:00,,yes,1,30\n',
    'jobs.csv':
      'job,part,quantity,due,not_before,setup_min\nrush,cap,900,Mon,,30\nslow,ring,10,Tue,,30\nrest,ring,20,Tue,,30\n',
  };
  const { results, facts } = await smallReport(renamed(tables), hostileFolder);
  const other = renamed({ ...tables, 'robot.csv': 'setting,value\nhands,1\ntravel_s,9\n' });
  const variants = [hostileFolder, hostileNames.rush!].map((name, k) => ({
    name,
    cell: readCell(k === 0 ? renamed(tables) : other),
    dispatch: 'first' as const,
  }));
  const comparison = await compareCells(variants, { replications: 2, hours: 4 });
  const change = { table: 'stations.csv', path: hostileNames.rack!, a: '=1', b: hostileNames.cap! };
  const changes = [{ a: hostileFolder, b: hostileNames.rush!, changes: [change] }];
  return { results: { ...results, comparison }, facts: { ...facts, changes } };
}

function renamed(tables: Readonly<Record<string, string>>): Tables {
  const cellText = (text: string): string =>
    hostileNames[text] ? `"${hostileNames[text].replaceAll('"', '""')}"` : text;
  const rows = (text: string): string => {
    const [head, ...rest] = text.split('\n');
    return [head, ...rest.map((line) => line.replace(/[a-z_]+/g, cellText))].join('\n');
  };
  return Object.fromEntries(Object.entries(tables).map(([file, text]) => [file, rows(text)]));
}
