/** The short answer: the five questions of a shop, each in a sentence or two with the command that tells more. */
import type { CostCaseOutcome } from '../core/cost/result.js';
import type { Cell } from '../core/model/cell.js';
import { leadingPattern } from '../core/model/leading-pattern.js';
import { nameText } from '../core/model/name-text.js';
import type { ScheduleFound } from '../core/schedule/result.js';
import type { ShiftPatterns } from '../core/shifts/shift-patterns.js';
import type { WeekStandstill } from '../core/shifts/standstills.js';
import type { SizeResult } from '../core/size/size-cell.js';
import { plainView } from './cost-document/case-view.js';
import { decisionText } from './cost-document/summary.js';
import { type NoSchedule, noScheduleSentence } from './no-schedule.js';
import { numberText, percentText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { visibleText } from './visible-text.js';

export interface BriefFacts {
  readonly cell: Cell;
  readonly schedule: ScheduleFound;
  readonly size: Pick<SizeResult, 'recommended'>;
  /** null without shifts.csv. */
  readonly shifts: ShiftPatterns | null;
  /** null without changeovers.csv or costs.csv. */
  readonly costCase: CostCaseOutcome | null;
}

export interface BriefAnswer {
  readonly question: 'rate' | 'machines' | 'week' | 'night' | 'boxes';
  readonly answer: string;
  /** Name of the command that tells more. */
  readonly command: string;
}

const TITLES: Readonly<Record<BriefAnswer['question'], string>> = {
  rate: 'Rate',
  machines: 'Machines',
  week: 'Shift and week',
  night: 'Night',
  boxes: 'Boxes or harness',
};

export function briefAnswers(facts: BriefFacts): BriefAnswer[] {
  return [
    { question: 'rate', answer: rateText(facts.schedule), command: 'schedule' },
    { question: 'machines', answer: machinesText(facts.size), command: 'size' },
    { question: 'week', answer: weekText(facts.shifts), command: 'shifts' },
    { question: 'night', answer: nightText(facts), command: 'shifts' },
    { question: 'boxes', answer: boxesText(facts), command: 'costcase' },
  ];
}

/** The same questions where the robot has no sequence, so that only the first has an answer. */
export function briefWithout(outcome: NoSchedule): BriefAnswer[] {
  const none = 'Nothing can be said before there is a sequence.';
  return [
    { question: 'rate', answer: noScheduleSentence(outcome), command: 'schedule' },
    { question: 'machines', answer: none, command: 'size' },
    { question: 'week', answer: none, command: 'shifts' },
    { question: 'night', answer: none, command: 'shifts' },
    { question: 'boxes', answer: none, command: 'costcase' },
  ];
}

function rateText({ partsPerH, partsPerPeriod, proven, gapPct, bottleneck }: ScheduleFound): string {
  const open = gapPct === null ? 'best found' : `at most ${percentText(gapPct)} more is possible`;
  const sure = proven ? 'proven optimal' : open;
  const none = Object.entries(partsPerPeriod).flatMap(([part, n]) => (n === 0 ? [nameText(part)] : []));
  const lacking = none.length === 0 ? '' : ` Not made at all: ${none.join(', ')}.`;
  return `${numberText(partsPerH.total!, 1)} parts an hour (${sure}).${lacking} ${bottleneck.text}`;
}

function machinesText({ recommended }: BriefFacts['size']): string {
  return recommended === null ? 'No number of machines has a feasible sequence.' : recommended.reason;
}

function weekText(shifts: ShiftPatterns | null): string {
  const best = shifts === null ? undefined : leadingPattern(shifts);
  if (shifts === null || best === undefined)
    return 'Without shifts.csv nothing can be said of a shift or a week.';
  const which = shifts.patterns.length === 1 ? '' : `best of ${shifts.patterns.length} patterns, `;
  return `${numberText(best.partsPerShift.total!, 1)} good parts a shift at constant times, ${numberText(best.partsPerWeek.total!)} a week (${which}"${best.pattern}", ${numberText(best.hoursPerWeek)} h).`;
}

function nightText({ cell, shifts }: BriefFacts): string {
  const withNight = shifts?.patterns.filter((p) => p.unattendedH > 0) ?? [];
  const [first] = withNight;
  if (first === undefined) return 'No shift is unattended; give one in shifts.csv to see what a night makes.';
  const night = withNight.reduce((a, b) => (b.partsPerWeek.total! > a.partsPerWeek.total! ? b : a), first);
  const names = cell.shifts.filter((s) => s.pattern === night.pattern && !s.attended).map((s) => s.shift);
  const each = night.byShift
    .filter(({ shift }) => names.includes(shift))
    .map(({ shift, partsPerShift }) => `${shift} ${numberText(partsPerShift, 1)}`);
  return `"${night.pattern}", good parts each unattended shift: ${each.join(', ')}. ${standstillText(night.standstills)}`;
}

/** What holds the cell up longest. */
function standstillText(standstills: readonly WeekStandstill[]): string {
  const lengthOf = ({ fromS, untilS }: WeekStandstill): number =>
    (untilS ?? Number.POSITIVE_INFINITY) - fromS;
  const longest = standstills.reduce<WeekStandstill | null>(
    (a, b) => (a === null || lengthOf(b) > lengthOf(a) ? b : a),
    null,
  );
  if (longest === null) return 'It runs through without running out or waiting for an operator.';
  const what = longest.stop === '' ? longest.cause : longest.stop;
  return `Down longest: ${what} at ${longest.station}, ${longest.from} to ${longest.until ?? 'the end'}.`;
}

function boxesText({ costCase }: BriefFacts): string {
  if (costCase === null) return 'Without changeovers.csv and costs.csv nothing can be said.';
  if (costCase.status !== 'found') return costCase.recommendation;
  return decisionText(plainView(costCase));
}

/** Lines that one answer may take, its command included. */
const MOST_LINES = 3;

/** @param path the folder or workbook as it is written in a command; at most 15 lines */
export function renderBrief(answers: readonly BriefAnswer[], path: string, style: TextStyle): string {
  return answers.map((answer) => `${answerLines(answer, path, style).join('\n')}\n`).join('');
}

function answerLines({ question, answer, command }: BriefAnswer, path: string, style: TextStyle): string[] {
  const more = visibleText(`(roundsman ${command} ${path})`);
  const text = `${TITLES[question]}: ${visibleText(answer)}`;
  const whole = paragraph(`${text} ${more}`, style.columns, '', '  ').split('\n');
  if (whole.length <= MOST_LINES) return whole;
  const sentences = text.split(/(?<=[.!?]) (?=[\p{Lu}"])/u);
  for (let n = sentences.length - 1; n > 0; n--) {
    const some = paragraph(`${sentences.slice(0, n).join(' ')} … ${more}`, style.columns, '', '  ').split(
      '\n',
    );
    if (some.length <= MOST_LINES) return some;
  }
  const cut = paragraph(text, style.columns - 1, '', '  ')
    .split('\n')
    .slice(0, MOST_LINES - 1);
  return [...cut.slice(0, -1), `${cut.at(-1)}…`, `  ${more}`];
}
