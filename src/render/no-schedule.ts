/** Why there is no schedule, in words. */
import type { ScheduleInfeasible, ScheduleUndecided } from '../core/schedule/result.js';
import { numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { printTable, type TableData } from './text-table.js';

export type NoSchedule = ScheduleInfeasible | ScheduleUndecided;

export function renderNoSchedule(outcome: NoSchedule, style: TextStyle): string {
  const text = paragraph(noScheduleSentence(outcome), style.columns);
  const table = contradictionTable(outcome);
  return table === null ? `${text}\n` : `${text}\n\n${printTable(table, style)}\n`;
}

export function noScheduleSentence(outcome: NoSchedule): string {
  return outcome.status === 'undecided'
    ? `No sequence found. ${outcome.reason} Searched: ${numberText(outcome.searched.nodes)} partial orders.`
    : `No feasible repeating sequence. ${outcome.reason}`;
}

/** The times that cannot all hold; null where no chain of them is known. */
export function contradictionTable(outcome: NoSchedule): TableData | null {
  if (outcome.status === 'undecided' || outcome.chain.length === 0) return null;
  return {
    columns: [{ heading: 'conflicting times' }, { heading: 's', align: 'right' }],
    rows: outcome.chain.map((link) => [link.what, numberText(link.S, 1)]),
  };
}
