/** Shift patterns as text: the patterns side by side, then each one's losses from the ceiling down. */
import pc from 'picocolors';
import type { ShiftPatterns } from '../core/shifts/shift-patterns.js';
import type { ShiftYield } from '../core/shifts/shift-yield.js';
import { countText, numberText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { textTable } from './text-table.js';

const right = (heading: string) => ({ heading, align: 'right' as const });

export function renderShifts(result: ShiftPatterns, currency: string, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  if (result.patterns.length === 0)
    return `${paragraph(`The robot makes ${numberText(result.partsPerH.total!, 1)} parts an hour. No shifts are given; fill in shifts.csv for parts per shift.`, style.columns)}\n`;
  return [
    `${shiftsAnswer(result, style)}\n`,
    `${paint.bold(`The patterns side by side${currency === '' ? '' : ` (money in ${currency})`}`)}\n${patternTable(result.patterns, style)}\n`,
    ...result.patterns.map(
      (pattern) => `${paint.bold(`Where the parts go: ${pattern.pattern}`)}\n${waterfall(pattern, style)}\n`,
    ),
  ].join('\n');
}

/** The answer in plain sentences. */
export function shiftsAnswer(result: ShiftPatterns, style: TextStyle): string {
  const each = result.patterns.map(
    (p) =>
      `${p.pattern}: ${numberText(p.partsPerShift.total!)} good parts a shift, ${numberText(p.partsPerWeek.total!)} a week in ${numberText(p.hoursPerWeek, 1)} hours.`,
  );
  const { byParts, byLabourCostPerPart, byContribution } = result.best;
  const best = [
    ...(byParts === null ? [] : [`parts: ${byParts}`]),
    ...(byLabourCostPerPart === null ? [] : [`labour per part: ${byLabourCostPerPart}`]),
    ...(byContribution === null ? [] : [`contribution a week: ${byContribution}`]),
  ];
  const lines = each.map((text) => paragraph(text, style.columns));
  if (result.patterns.length > 1) lines.push(paragraph(`Best by ${best.join('; by ')}.`, style.columns));
  return lines.join('\n');
}

function patternTable(patterns: readonly ShiftYield[], style: TextStyle): string {
  const money = (amount: number | null, digits: number): string =>
    amount === null ? '-' : numberText(amount, digits);
  return textTable(
    [
      { heading: 'pattern' },
      right('hours'),
      right('un-\nmanned'),
      right('parts\na shift'),
      right('parts\na week'),
      right('ceiling\na week'),
      right('labour\na part'),
      right('contribution\na week'),
    ],
    patterns.map((p) => [
      p.pattern,
      numberText(p.hoursPerWeek, 1),
      numberText(p.unattendedH, 1),
      numberText(p.partsPerShift.total!, 1),
      numberText(p.partsPerWeek.total!),
      numberText(p.ceilingPerWeek.total!),
      money(p.labourCostPerPart, 2),
      money(p.contributionPerWeek, 0),
    ]),
    style,
  );
}

/** From the ceiling down to the good parts, cause by cause. */
function waterfall(pattern: ShiftYield, style: TextStyle): string {
  const ceiling = pattern.ceilingPerWeek.total!;
  let level = ceiling;
  const rows = [['steady rate all open hours', '', numberText(level, 1), numberText(100, 1)]];
  for (const loss of pattern.losses) {
    level -= loss.partsPerWeek;
    const change = loss.partsPerWeek === 0 ? '0.0' : numberText(-loss.partsPerWeek, 1);
    rows.push([loss.cause, change, numberText(level, 1), numberText((100 * level) / ceiling, 1)]);
  }
  rows.push([
    'good parts a week',
    '',
    numberText(pattern.partsPerWeek.total!, 1),
    numberText((100 * pattern.partsPerWeek.total!) / ceiling, 1),
  ]);
  const table = textTable(
    [{ heading: 'cause' }, right('parts a week'), right('leaves'), right('%')],
    rows,
    style,
  );
  const shifts = pattern.byShift.map((s) => `${s.shift}: ${numberText(s.partsPerShift, 1)} a shift`);
  const notes = [
    `${countText(pattern.shiftsPerWeek, 'shift')} a week; ${shifts.join(', ')}.`,
    ...pattern.notes,
  ];
  return `${table}\n${bullets(notes, style.columns)}`;
}
