/** Why there is no schedule, in words. */
import type { ScheduleInfeasible, ScheduleUndecided } from '../core/schedule/result.js';
import { numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { textTable } from './text-table.js';

export function renderNoSchedule(outcome: ScheduleInfeasible | ScheduleUndecided, style: TextStyle): string {
  if (outcome.status === 'undecided')
    return `${paragraph(`No sequence was found. ${outcome.reason} Searched: ${numberText(outcome.searched.nodes)} partial orders.`, style.columns)}\n`;
  const text = paragraph(`No sequence can be repeated for ever. ${outcome.reason}`, style.columns);
  if (outcome.chain.length === 0) return `${text}\n`;
  const chain = textTable(
    [{ heading: 'these contradict each other' }, { heading: 's', align: 'right' }],
    outcome.chain.map((link) => [link.what, numberText(link.S, 1)]),
    style,
  );
  return `${text}\n\n${chain}\n`;
}
