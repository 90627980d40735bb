/** The result of a question as the file that the command line prints for it with `--json`. */
import { sha256 } from '@noble/hashes/sha2';
import { bytesToHex } from '@noble/hashes/utils';
import type { Complaint } from '../../core/model/complaint.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { resultJson } from '../../render/result-json.js';
import type { Tables } from '../../tables/inspect-tables.js';
import { tableFiles } from '../../tables/table-formats.js';
import type { AnswerSaid } from '../engine/messages.js';

declare const BUILT_VERSION: string;

/** Version of the program that made the page. */
export const PROGRAM_VERSION = BUILT_VERSION;

/** The tables of the cell by name with the SHA-256 of each; readings and logs beside them are no part of it. */
export function tableSeals(tables: Tables): { file: string; sha256: string }[] {
  return Object.keys(tables)
    .filter((file) => tableFiles.includes(file))
    .sort()
    .map((file) => ({ file, sha256: bytesToHex(sha256(new TextEncoder().encode(tables[file]))) }));
}

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
    inputs: tableSeals(tables),
    assumptions,
    warnings: [...complaintLines(complaints), ...warnings],
    fields,
  });
}
