/**
 * A formula as text together with the inputs that it names, so that anybody can work it out again.
 *
 * In the text stand names of inputs, numbers, + - x / ^, brackets, min, max, log2 and roundup (up to the next whole
 * number, where a hair of rounding does not count), and `sum(… of year y …, y = 0 to horizon_years)`.
 */
import type { AuditInput } from '../result.js';

export interface Formula {
  readonly text: string;
  readonly inputs: readonly AuditInput[];
}

/** A name that stands for one input. */
export function named(input: AuditInput): Formula {
  return { text: nameOf(input), inputs: [input] };
}

/** As it stands in formulas: without what is said of where the value comes from. */
function nameOf({ item }: AuditInput): string {
  return item.replace(/ \((default|signals_per_machine)\)$/, '');
}

/** @example formula`${price} x ${count}` */
export function formula(parts: TemplateStringsArray, ...values: readonly (Formula | number)[]): Formula {
  let text = parts[0]!;
  const inputs: AuditInput[] = [];
  values.forEach((value, k) => {
    text += typeof value === 'number' ? String(value) : value.text;
    text += parts[k + 1]!;
    if (typeof value !== 'number') inputs.push(...value.inputs);
  });
  return { text, inputs: eachOnce(inputs) };
}

export function joined(formulas: readonly Formula[], by: string): Formula {
  return formulas.length === 0
    ? { text: '0', inputs: [] }
    : {
        text: formulas.map((f) => f.text).join(by),
        inputs: eachOnce(formulas.flatMap((f) => f.inputs)),
      };
}

export function sumOf(formulas: readonly Formula[]): Formula {
  return joined(formulas, ' + ');
}

function eachOnce(inputs: readonly AuditInput[]): AuditInput[] {
  return [...new Map(inputs.map((input) => [input.item, input])).values()];
}
