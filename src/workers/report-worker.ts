/** Runs on a worker thread: one part of a report. */
import {
  type PartInputs,
  type PartJob,
  type PartName,
  type PartResults,
  reportPart,
} from '../core/report/report-parts.js';

export interface ReportTask {
  readonly inputs: PartInputs;
  readonly job: PartJob;
}

export default function runPart({ inputs, job }: ReportTask): Promise<PartResults[PartName]> {
  return reportPart(inputs, job);
}
