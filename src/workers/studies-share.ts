/** Runs on a worker thread: questions about one cell, one after another. */
import { runStudy, type StudyName, type StudyTypes } from '../core/studies/studies.js';
import type { StudyInputs } from '../core/studies/study-inputs.js';
import { highsSolver } from '../solver/highs-solver.js';

export interface AskedStudy {
  readonly name: StudyName;
  /** Those that are not the defaults. */
  readonly options: Partial<StudyTypes[StudyName][0]>;
}

export interface StudiesTask {
  readonly inputs: StudyInputs;
  readonly asked: readonly AskedStudy[];
}

export type StudyResult = StudyTypes[StudyName][1];

/** @returns the answers in the order of the questions */
export default async function runStudies({ inputs, asked }: StudiesTask): Promise<StudyResult[]> {
  const results: StudyResult[] = [];
  for (const { name, options } of asked)
    results.push(await runStudy(name, inputs, options, { mixedSolver: highsSolver }));
  return results;
}
