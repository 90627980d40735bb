/** A plain dispatch rule against the best sequence, as text. */
import type { ScheduleFound } from '../core/schedule/result.js';
import type { PlainRule } from '../core/simulate/plain-rule.js';
import { numberText, percentText } from './numbers.js';
import { paragraph } from './paragraph.js';
import { printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

const MEANING = {
  first: 'takes the call that came first',
  nearest: 'takes the nearest call',
  longest: 'takes the machine with the longest cycle',
} as const;

/** Loss below which the counted hours tell no difference, per cent. */
const NO_DIFFERENCE_PCT = 0.1;

export function renderPlainRule(held: PlainRule, schedule: ScheduleFound, style: TextStyle): string {
  const text = paragraph(plainRuleText(held, schedule), style.columns);
  return printer(style).section(`The rule \`${held.rule}\` against this sequence`, text);
}

function plainRuleText(
  { rule, partsPerH, lossPct, mixDiffers, deadlock, hours }: PlainRule,
  schedule: ScheduleFound,
): string {
  const best = numberText(schedule.partsPerH.total!, 1);
  const who = `A robot that ${MEANING[rule]}`;
  if (deadlock !== null) return `${who} locks this cell up: nothing can move any more. ${deadlock}`;
  const makes = `${who} makes ${numberText(partsPerH, 1)} parts an hour, against ${best} of the sequence above`;
  const counted = `Counted over ${numberText(hours)} hours with constant times, without stops and scrap.`;
  const mix = mixDiffers
    ? ' It makes another mix of parts, so the two are not alike; compare contribution, not piece count.'
    : '';
  if (Math.abs(lossPct) < NO_DIFFERENCE_PCT) return `${makes}: no difference. ${counted}${mix}`;
  if (lossPct < 0) return `${makes}: it makes ${percentText(-lossPct)} more. ${counted}${mix}`;
  return `${makes}: it loses ${percentText(lossPct)}. ${counted}${mix}`;
}
