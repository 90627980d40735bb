/** The whole report of the cell, with the same parts and the same texts as the command `report`. */

import type { Cell } from '../../core/model/cell.js';
import { currencyOf } from '../../core/model/cost-value.js';
import { earlyJobs, laterJobs, reportMix, reportPart, reportRows } from '../../core/report/report-parts.js';
import { assembleReport, type PartDone } from '../../core/report/report-results.js';
import { bestSchedule } from '../../core/schedule/best-schedule.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { REPORT_BOOK, reportBook, reportFiles } from '../../render/report-page/report-files.js';
import { reportView } from '../../render/report-page/report-view.js';
import type { Tables } from '../../tables/inspect-tables.js';
import { plainLayer } from '../../tables/overrides/layered-tables.js';
import { shownTables } from '../../tables/shown-tables.js';
import { tableFiles } from '../../tables/table-formats.js';
import { workbookBytes } from '../../workbook/write-workbook.js';
import { CONTEXT } from './answers.js';
import { hasTakenSolver } from './carried-solver.js';
import type { Done, ReportWanted } from './messages.js';

export async function reportDeed(
  { name, cell, tables, facts, script }: ReportWanted,
  progress: (done: number, of: number) => void,
): Promise<Done> {
  const lacking = solverNeeds(cell);
  if (lacking !== null) return { refused: lacking };
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('order' in schedule)) return { refused: 'No sequence can be repeated, so there is no report.' };
  const grown = reportRows(cell);
  const jobs = [...earlyJobs(cell), ...laterJobs(cell)];
  const done: PartDone[] = [];
  for (const job of jobs) {
    progress(done.length, jobs.length);
    done.push({ job, result: await reportPart({ cell, schedule, grown }, job, CONTEXT) });
  }
  const wrong = done.flatMap(({ result }) =>
    'status' in result && result.status === 'wrong' ? [result] : [],
  );
  const [fault] = wrong;
  if (fault !== undefined && 'complaints' in fault)
    return { refused: complaintLines(fault.complaints).join(' ') };
  const mix = await reportMix({ cell, schedule }, CONTEXT);
  const view = reportView(assembleReport(cell, schedule, grown, done, null, mix), {
    name,
    currency: currencyOf(cell),
    tables: shownTables(plainLayer(ofCell(tables))),
    ...facts,
    notes: [],
    changes: [],
  });
  const book = await workbookBytes(reportBook(view), 'xlsx');
  return { files: { ...reportFiles(view, script), [REPORT_BOOK]: book } };
}

/** What a report of this cell needs and a page does not carry; null where it needs nothing more. */
function solverNeeds({ parts, jobs }: Cell): string | null {
  if (hasTakenSolver()) return null;
  const files = [...(parts.length > 0 ? ['parts.csv'] : []), ...(jobs.length > 0 ? ['jobs.csv'] : [])];
  if (files.length === 0) return null;
  return `The report of a cell with ${files.join(' and ')} plans the mix and the jobs with a solver that this page does not carry. Write the page with \`roundsman page --solver\`, or save the tables and run \`roundsman report\` on them.`;
}

function ofCell(tables: Tables): Tables {
  return Object.fromEntries(Object.entries(tables).filter(([file]) => tableFiles.includes(file)));
}
