/** The JSON object of a result: what every result has, then the result's own fields. */
import { cautionsFor } from '../core/model/cautions.js';

export const PROGRAM = 'roundsman';

export interface ResultFacts {
  readonly version: string;
  /** Name of the command that gives such a result. */
  readonly command: string;
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly fields: Readonly<Record<string, unknown>>;
}

/** @throws RangeError where a figure of the result is not finite: JSON would turn it into an empty value unseen */
export function resultJson({ version, command, inputs, assumptions, warnings, fields }: ResultFacts): string {
  const object = {
    program: PROGRAM,
    version,
    command,
    inputs: inputs.map(({ file, sha256 }) => ({ file, sha256 })),
    assumptions,
    warnings,
    cautions: cautionsFor(command).map(({ id, text, reference }) => ({ id, text, reference })),
    ...fields,
  };
  return `${JSON.stringify(object, onlyFinite, 2)}\n`;
}

function onlyFinite(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RangeError(`the field ${key} of the result is not a finite number`);
  return value;
}
