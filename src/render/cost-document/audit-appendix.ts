/** Every figure with its formula and its inputs by file and line, numbered so that one can name another. */

import type { AuditEntry, AuditInput } from '../../core/cost/result.js';
import { chanceText } from '../../core/model/chance-text.js';
import { type Block, fold, left, right, said, section, tableOf } from '../document/blocks.js';
import { defaultsFold } from './assumptions.js';
import type { CaseView } from './case-view.js';
import { caseMethodBlocks } from './method.js';
import { placeText } from './place-text.js';

export interface SourceFile {
  readonly file: string;
  readonly sha256: string;
}

export function auditBlocks(view: CaseView, files: readonly SourceFile[], program: string): Block[] {
  const { result } = view;
  const numberOf = new Map(result.audit.map((entry, k) => [entry.result, k + 1]));
  return [
    section('Method and audit trail'),
    said(
      'How each figure is worked out, and every figure with its formula and its inputs, are in the folded parts below, which are not printed; cost-case.xlsx beside this document holds all of them as live formulas.',
    ),
    ...caseMethodBlocks(view),
    defaultsFold(view),
    fold('Every figure with its formula and its inputs', [
      said(
        'Each figure with its formula and what went into it. In brackets: where the value comes from: file and line of the tables, the number of another figure, the schedule of the robot, or a default of the program.',
      ),
      tableOf(
        'Figures, formulas and inputs',
        [left('no. and figure'), right('value'), left('formula'), left('inputs')],
        result.audit.map((entry, k) => [
          `${k + 1} ${entry.result}`,
          valueText(view, entry),
          entry.formula,
          entry.inputs.map((input) => inputText(view, input, numberOf)).join('; '),
        ]),
        { prose: true, wide: true },
      ),
      tableOf(
        `Tables that were read, by ${program}`,
        [left('file'), left('SHA-256')],
        files.map(({ file, sha256 }) => [file, sha256]),
      ),
    ]),
  ];
}

/** A chance that trials found is never told as 0 or 100. */
function valueText({ numbers }: CaseView, { value, how }: AuditEntry): string {
  if (value === null) return 'none';
  if (how === 'trials') return chanceText(value / 100, (pct) => numbers.percent(pct));
  return numbers.typed(Number(value.toPrecision(7)));
}

function inputText({ numbers }: CaseView, input: AuditInput, numberOf: ReadonlyMap<string, number>): string {
  const value =
    typeof input.value === 'number'
      ? numbers.typed(Number(input.value.toPrecision(7)))
      : input.value || 'empty';
  const number = input.from === undefined ? undefined : numberOf.get(input.from);
  const origin = number === undefined ? placeText(input.place, input.lines) : `no. ${number}`;
  return `${input.item} ${value}${origin === '' ? '' : ` (${origin})`}`;
}
