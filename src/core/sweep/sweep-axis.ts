/**
 * The values that one input takes in a sweep: `180:300:20` (first, last, step) or a list `1,2`. Numbers may have a decimal
 * comma; a list of such has semicolons between them: `0,5;1;1,5`.
 */

export interface SweepAxis {
  /** Path of a cell of the tables, such as `routes.p.2.cycle_s`. */
  readonly path: string;
  /** Values as they are written into the cell. */
  readonly values: readonly string[];
}

export type AxisReading =
  | { readonly ok: true; readonly axis: SweepAxis }
  | { readonly ok: false; readonly fault: string };

export const MOST_POINTS = 100_000;

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;
const DECIMAL_COMMA = /^[+-]?(\d+,\d*|,\d+)$/;

/** A decimal comma as a point. */
function pointed(value: string): string {
  return DECIMAL_COMMA.test(value) ? value.replace(',', '.') : value;
}

/** @example readAxis('robot.hands=1:2:1') // { ok: true, axis: { path: 'robot.hands', values: ['1', '2'] } } */
export function readAxis(text: string): AxisReading {
  const parts = /^\s*([^=]+?)\s*=\s*(.*?)\s*$/s.exec(text);
  if (!parts || parts[2] === '')
    return fault(
      `found \`${text}\`, expected a path, \`=\` and first:last:step or a list of values, such as \`routes.<part>.<step>.cycle_s=180:300:20\` or \`robot.hands=1,2\``,
    );
  const [, path, range] = parts as unknown as [string, string, string];
  if (!range.includes(':')) {
    const values = range.includes(';')
      ? range.split(';').map((v) => pointed(v.trim()))
      : range.split(',').map((v) => v.trim());
    if (values.includes(''))
      return fault(
        `found an empty value in \`${range}\`, expected values with commas between, or with semicolons where they have decimal commas`,
      );
    if (new Set(values).size < values.length)
      return fault(`found a value twice in \`${range}\`, expected each once`);
    return { ok: true, axis: { path, values } };
  }
  const pieces = range.split(':').map((v) => pointed(v.trim()));
  const wrong = pieces.find((p) => !NUMBER.test(p));
  if (wrong !== undefined || pieces.length !== 3)
    return fault(`found \`${range}\`, expected three numbers first:last:step, such as \`180:300:20\``);
  return rangeAxis(path, range, pieces.map(Number) as [number, number, number], pieces);
}

function rangeAxis(
  path: string,
  range: string,
  [first, last, step]: [number, number, number],
  pieces: readonly string[],
): AxisReading {
  if (step === 0 || (last - first) * step < 0)
    return fault(`found the step ${step} in \`${range}\`, expected one that leads from ${first} to ${last}`);
  const steps = Math.floor((last - first) / step + 1e-9);
  if (steps + 1 > MOST_POINTS)
    return fault(`found ${steps + 1} values in \`${range}\`, at most ${MOST_POINTS} are worked out`);
  const digits = Math.max(...pieces.map((p) => p.split('.')[1]?.length ?? 0));
  const values = Array.from({ length: steps + 1 }, (_, i) => plainDecimal(first + i * step, digits));
  return { ok: true, axis: { path, values } };
}

/** Multiples of a step in as many digits as were typed: 0.1 + 2 x 0.1 is 0.3. */
function plainDecimal(value: number, digits: number): string {
  const text = value.toFixed(digits);
  const short = digits === 0 ? text : text.replace(/\.?0+$/, '');
  return short === '-0' ? '0' : short;
}

function fault(text: string): AxisReading {
  return { ok: false, fault: text };
}
