/**
 * The results of one cell as files: text, tables for a spreadsheet, a document on the money, and the figures as JSON.
 * Nothing in them depends on the time or the speed of the machine, so that the same tables give the same files.
 */
import type { CostCaseFound } from '../core/cost/result.js';
import { type Caution, cautions } from '../core/model/cautions.js';
import type { ScheduleFound } from '../core/schedule/result.js';
import type { ShiftPatterns } from '../core/shifts/shift-patterns.js';
import type { SizeResult } from '../core/size/size-cell.js';
import { costCaseAnswer } from './cost-case.js';
import type { SourceFile } from './cost-document/audit-appendix.js';
import type { CaseDocumentFacts } from './cost-document/cost-case-document.js';
import { costCaseFiles } from './cost-document/cost-case-files.js';
import { csvText } from './csv.js';
import { renderNotices } from './notices.js';
import { roundMoves } from './robot-round.js';
import { renderSchedule, scheduleAnswer } from './schedule.js';
import { renderShifts, shiftsAnswer } from './shifts.js';
import { sizeAnswer } from './size.js';
import { plainStyle, type TextStyle } from './text-style.js';

export interface CellResults {
  /** Name of the cell, such as its folder. */
  readonly name: string;
  readonly currency: string;
  readonly schedule: ScheduleFound;
  readonly shifts: ShiftPatterns;
  readonly size: SizeResult;
  /** null where the tables hold too little for it. */
  readonly costCase: CostCaseFound | null;
  /** Tables that were read. */
  readonly files: readonly SourceFile[];
  /** Name and version of the program. */
  readonly program: string;
}

/** Digits that are kept of every figure: beyond them, machines may differ. */
const DIGITS = 9;

/** The answer in plain sentences, question by question. */
export function cellAnswer(results: CellResults, style: TextStyle): string {
  const money =
    results.costCase === null ? [] : [['Boxes or one harness', costCaseAnswer(results.costCase, style)]];
  return [
    ['The round of the robot', scheduleAnswer(results.schedule, style)],
    ['Parts by shift pattern', shiftsAnswer(results.shifts, style)],
    ['How many machines', sizeAnswer(results.size, style)],
    ...money,
  ]
    .map(([title, text]) => `${title}\n${text}\n`)
    .join('\n');
}

/** @returns texts by file name */
export function reportFiles(results: CellResults): Record<string, string> {
  const { schedule, shifts, costCase } = results;
  return {
    'answer.txt': `${results.name}\n\n${cellAnswer(results, plainStyle)}\n${notices(results)}`,
    'schedule.txt': renderSchedule(schedule, plainStyle),
    'round.csv': roundCsv(schedule),
    'stations.csv': stationsCsv(schedule),
    'shifts.txt': renderShifts(shifts, results.currency, plainStyle),
    'shifts.csv': shiftsCsv(shifts),
    'size.csv': sizeCsv(results.size),
    ...(costCase === null ? {} : costCaseFiles(costCase, caseFacts(results))),
    'results.json': resultsJson(results),
  };
}

function caseFacts({ name, files, program }: CellResults): CaseDocumentFacts {
  return { cell: name, locale: 'en', files, program };
}

function notices({ schedule, shifts, size, costCase }: CellResults): string {
  const all = [schedule, shifts, size, ...(costCase ? [costCase] : [])];
  return renderNotices(
    {
      warnings: unique(all.flatMap((result) => result.warnings)),
      assumptions: unique([
        ...schedule.assumptions,
        ...shifts.patterns.flatMap((p) => p.assumptions),
        ...size.assumptions,
        ...(costCase?.assumptions ?? []),
      ]),
      cautions: reportCautions(),
    },
    plainStyle,
  );
}

function reportCautions(): Caution[] {
  return cautions.filter((caution) => caution.commands.includes('report'));
}

function unique(texts: readonly string[]): string[] {
  return [...new Set(texts)];
}

function roundCsv(schedule: ScheduleFound): string {
  return csvText([
    ['first_act', 'last_act', 'start_s', 'end_s', 'robot', 'wait_s', 'waits_at'],
    ...roundMoves(schedule).map((m) => [m.first, m.last, m.startS, m.endS, m.text, m.waitS, m.waitsAt]),
  ]);
}

function stationsCsv({ stations }: ScheduleFound): string {
  return csvText([
    ['station', 'kind', 'processing_s', 'handling_s', 'wait_robot_s', 'empty_s', 'utilization_pct'],
    ...stations.map((s) => [
      s.station,
      s.kind,
      s.processingS,
      s.handlingS,
      s.waitRobotS,
      s.emptyS,
      s.utilizationPct,
    ]),
  ]);
}

function shiftsCsv({ patterns }: ShiftPatterns): string {
  return csvText([
    ['pattern', 'cause', 'parts_per_week'],
    ...patterns.flatMap((p) => [
      [p.pattern, 'steady rate all open hours', p.ceilingPerWeek.total!],
      ...p.losses.map((loss) => [p.pattern, loss.cause, -loss.partsPerWeek]),
      [p.pattern, 'good parts', p.partsPerWeek.total!],
    ]),
  ]);
}

function sizeCsv({ rows }: SizeResult): string {
  return csvText([
    [
      'machines',
      'parts_per_h',
      'parts_per_shift',
      'robot_pct',
      'machines_pct',
      'wait_robot_pct',
      'cost_per_part',
      'contribution_per_h',
    ],
    ...rows.map((r) => [
      r.machines,
      r.partsPerH,
      r.partsPerShift,
      r.robotUtilizationPct,
      r.machineUtilizationPct,
      r.waitRobotPct,
      r.costPerPart,
      r.contributionPerH,
    ]),
  ]);
}

function resultsJson({ schedule, shifts, size, costCase, name }: CellResults): string {
  const { searched: _searched, order: _order, rateBoundPerH, ...planned } = schedule;
  const { total, perPart, binding } = rateBoundPerH;
  const results = {
    name,
    schedule: { ...planned, rateBoundPerH: { total, perPart, binding } },
    shifts,
    size,
    costCase,
  };
  return `${JSON.stringify(results, rounded, 1)}\n`;
}

function rounded(key: string, value: unknown): unknown {
  if (typeof value !== 'number') return value;
  if (!Number.isFinite(value)) throw new RangeError(`the figure ${key} is not finite`);
  return Number(value.toPrecision(DIGITS));
}
