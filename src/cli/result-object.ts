/** The JSON object of a result: what every result has, then the result's own fields. */
import { cautionsFor } from '../core/model/cautions.js';
import type { Answer } from './answer.js';
import { PROGRAM, programVersion } from './version.js';

/** @throws RangeError where a figure of the result is not finite: JSON would turn it into an empty value unseen */
export function resultJson(command: string, answer: Answer): string {
  const object = {
    program: PROGRAM,
    version: programVersion(),
    command,
    inputs: answer.inputs.map(({ file, sha256 }) => ({ file, sha256 })),
    assumptions: answer.assumptions ?? [],
    warnings: answer.warnings ?? [],
    cautions: cautionsFor(command).map(({ id, text, reference }) => ({ id, text, reference })),
    ...answer.fields,
  };
  return `${JSON.stringify(object, onlyFinite, 2)}\n`;
}

function onlyFinite(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RangeError(`the field ${key} of the result is not a finite number`);
  return value;
}
