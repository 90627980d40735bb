/** The result of a question as the file that the command line prints for it with `--json`. */
import { sha256 } from '@noble/hashes/sha2';
import { bytesToHex } from '@noble/hashes/utils';
import type { Complaint } from '../../core/model/complaint.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { resultJson } from '../../render/result-json.js';
import type { Tables } from '../../tables/inspect-tables.js';
import type { AnswerSaid } from '../engine/messages.js';

declare const PROGRAM_VERSION: string;

/** @param complaints warnings about the tables */
export function resultFile(
  { question, result }: AnswerSaid,
  tables: Tables,
  complaints: readonly Complaint[],
): string {
  const { fields, assumptions, warnings } = result;
  return resultJson({
    version: PROGRAM_VERSION,
    command: question,
    inputs: Object.keys(tables)
      .sort()
      .map((file) => ({ file, sha256: bytesToHex(sha256(new TextEncoder().encode(tables[file]))) })),
    assumptions,
    warnings: [...complaintLines(complaints), ...warnings],
    fields,
  });
}
