/**
 * The answer in sentences: one for everyone, then what it means for whoever decides, plans and estimates. Every sentence has its figure; where a table is lacking, the sentence is left out.
 */

import { itemLabel } from '../../core/model/cost-items.js';
import { planInWords } from '../../core/model/plan-words.js';
import type { ScheduleFound, WhatIf } from '../../core/schedule/result.js';
import type { ShiftYield } from '../../core/shifts/shift-yield.js';
import type { Estimate } from '../../core/simulate/simulation-result.js';
import type { SizeRow } from '../../core/size/size-row.js';
import { type CaseView, decisiveIncrement, wayInWords } from '../cost-document/case-view.js';
import { decisionText, paybackText, riskText } from '../cost-document/summary.js';
import { type Block, listOf, section, subsection } from '../document/blocks.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { lowerFirst, upperFirst } from '../first-letter.js';
import { countText } from '../numbers.js';
import { scheduleSentences } from '../schedule.js';
import type { ReportView } from './report-view.js';

export interface AnswerGroup {
  readonly title: string;
  readonly sentences: readonly string[];
}

/** What it means for whoever decides, plans and estimates. */
export function answerBlocks(view: ReportView): Block[] {
  return [
    section('In words'),
    {
      kind: 'beside',
      even: true,
      pieces: answerGroups(view).map(({ title, sentences }) => [subsection(title), listOf(sentences)]),
    },
  ];
}

/** One sentence: what the cell makes, in what pattern, and what boxes are worth. */
export function leadText(view: ReportView): string {
  const { results, numbers } = view;
  const rate = `${numbers.number(results.schedule.partsPerH.total!, 1)} parts an hour`;
  const week = results.week?.base ?? null;
  const made =
    week === null
      ? `The cell makes ${rate}`
      : `The cell makes ${rate} and, in the pattern ${week.pattern}, ${numbers.number(week.partsPerWeek.total!)} good parts a week`;
  return `${made}${view.money === null ? '' : `; ${boxesText(view.money)}`}.`;
}

function boxesText(view: CaseView): string {
  const { result, choice, harness, numbers } = view;
  const over = `over ${countText(result.horizonYears, 'year')}, ${result.basis}`;
  if (result.plannedChangeovers === 0) return 'no changeovers are planned, so boxes save nothing';
  if (choice === harness) return `moving the harness costs least ${over}`;
  const worth = numbers.money(decisiveIncrement(view, choice)?.npv ?? 0);
  return `${wayInWords(view, choice)} are worth ${worth} more than moving the harness ${over}`;
}

/** The sentences for the manager, the planner and the estimator. */
export function answerGroups(view: ReportView): AnswerGroup[] {
  return [
    { title: 'For the manager', sentences: managerSentences(view) },
    { title: 'For the planner', sentences: plannerSentences(view) },
    { title: 'For the estimator', sentences: estimatorSentences(view) },
  ].filter(({ sentences }) => sentences.length > 0);
}

function managerSentences(view: ReportView): string[] {
  const { results, money } = view;
  const { size, comparison } = results;
  const { recommended } = size;
  return [
    ...(recommended === null
      ? []
      : [[recommended.reason, recommended.nextBest?.text ?? ''].filter((text) => text !== '').join(' ')]),
    ...patternSentences(view),
    ...(money === null
      ? []
      : [
          `Boxes or one harness: ${lowerFirst(decisionText(money))}`,
          `Paid back: ${lowerFirst(paybackText(money))}`,
          riskText(money),
        ]),
    ...(comparison === null ? [] : [comparison.recommendation]),
  ];
}

function patternSentences({ results: { shifts, patterns }, numbers }: ReportView): string[] {
  if (shifts === null) return [];
  const of = (name: string) => shifts.patterns.find((p) => p.pattern === name)!;
  const yieldText = ({ pattern, partsPerShift, partsPerWeek, hoursPerWeek }: ShiftYield) =>
    `${pattern} makes ${numbers.number(partsPerShift.total!, 1)} good parts a shift at constant times, ${numbers.number(partsPerWeek.total!)} a week in ${numbers.number(hoursPerWeek)} hours`;
  const each = shifts.patterns.map(yieldText).join('; ');
  const { byParts, byLabourCostPerPart, byContribution, byDemand } = shifts.best;
  const best = [
    ...(byParts === null ? [] : [`most parts: ${byParts}`]),
    ...(byLabourCostPerPart === null
      ? []
      : [
          `least labour in a part: ${byLabourCostPerPart} (${numbers.money(of(byLabourCostPerPart).labourCostPerPart!)})`,
        ]),
    ...(byContribution === null
      ? []
      : [
          `highest margin, after labour and running costs: ${byContribution} (${numbers.money(of(byContribution).contributionPerWeek!)} a week)`,
        ]),
    ...(byDemand === null
      ? []
      : [`demand: ${byDemand} (${numbers.percent(Math.min(100, of(byDemand).demandMetPct!), 0)} of it met)`]),
  ];
  const doubt = (patterns?.differences ?? []).filter((d) => !d.clear).map(({ a, b }) => `${a} and ${b}`);
  return [
    `${upperFirst(each)}.`,
    ...(shifts.patterns.length > 1 ? [`Of these patterns, ${best.join('; ')}.`] : []),
    ...(doubt.length > 0
      ? [
          `With downtime and variation, there is no clear difference in parts a week between ${doubt.join(', nor between ')}.`,
        ]
      : []),
  ];
}

function plannerSentences(view: ReportView): string[] {
  const { results, numbers } = view;
  const { result, ruleToProgram } = results.simulation;
  const total = result.partsPerShift.total!;
  const where =
    results.simulatedPattern === null ? 'day and night' : `in the pattern ${results.simulatedPattern}`;
  const simulated = `With downtime, variation and people (${result.replications} runs ${where}) a shift makes ${numbers.number(total.mean, 1)} good parts${boundsText(view, total)}; P10 ${numbers.number(total.p10)}.`;
  const largest = [...result.losses].sort((a, b) => b.partsPerShift - a.partsPerShift)[0];
  const loss =
    largest === undefined || largest.partsPerShift <= 0
      ? ''
      : ` Largest loss: ${largest.cause}, ${numbers.number(largest.partsPerShift, 1)} parts a shift.`;
  return [
    scheduleSentences(results.schedule, numbers.currency)[0]!,
    results.schedule.bottleneck.text,
    ...(result.deadlock === null
      ? [`${simulated}${loss}`]
      : [`In the simulation the cell locks up: ${result.deadlock}`]),
    ...(ruleToProgram === null ? [] : [ruleToProgram]),
    ...scarceSentences(view),
    ...(results.jobs === null || results.jobs.best === null
      ? []
      : [`The jobs of the week: ${results.jobs.recommendation}`]),
  ];
}

const SCARCE_SHOWN = 2;

/** Hours of which one more would bring something. */
function scarceSentences({ results: { mix }, numbers }: ReportView): string[] {
  const best = mix?.patterns.find((p) => p.pattern === mix.best);
  const scarce = [...(best?.resources ?? [])]
    .filter((r) => r.worthPerH > 0)
    .sort((a, b) => b.worthPerH - a.worthPerH)
    .slice(0, SCARCE_SHOWN);
  if (mix == null || best === undefined || scarce.length === 0) return [];
  const worth = (value: number) =>
    mix.valued === 'contribution' ? numbers.money(value) : `${numbers.number(value, 1)} parts`;
  const each = scarce.map((r) => `${r.resource} (one more hour a week is worth ${worth(r.worthPerH)})`);
  return [`Bottlenecks by hours alone, ${best.pattern ?? 'the week'}: ${each.join(', ')}.`];
}

/** @example ' (95% sure of 391.0 to 399.2)' */
function boundsText({ results, numbers }: ReportView, { ciLow, ciHigh }: Estimate): string {
  if (ciLow === null || ciHigh === null) return '';
  const { confidencePct } = results.simulation.result;
  return ` (the mean lies between ${numbers.number(ciLow, 1)} and ${numbers.number(ciHigh, 1)} with ${numbers.percent(confidencePct, 0)} confidence)`;
}

function estimatorSentences(view: ReportView): string[] {
  const { results, numbers, money } = view;
  const row = recommendedRow(view);
  const cost =
    row?.costPerPart == null
      ? []
      : [
          `Robot, machines and people cost ${numbers.money(row.costPerPart)} for each good part with ${countText(row.machines, 'machine')}${row.contributionPerH === null ? '' : `; the margin after them is ${numbers.money(row.contributionPerH)} an hour`}.`,
        ];
  return [
    ...cost,
    ...leverSentences(results.schedule, view),
    ...(money === null ? [] : [turnSentence(view)]),
    ...(results.points?.boxesTotal == null
      ? []
      : [
          `${upperFirst(countText(results.points.boxesTotal, 'interface box is', 'interface boxes are'))} needed for the signals of ${countText(results.points.stations.length, 'machine')}.`,
        ]),
  ];
}

export function recommendedRow({ results: { size } }: ReportView): SizeRow | null {
  return size.rows.find((row) => row.machines === size.recommended?.machines) ?? null;
}

function leverSentences({ improvements, whatIf }: ScheduleFound, { numbers }: ReportView): string[] {
  const [best] = improvements;
  const change = [...whatIf].sort((a, b) => b.goalGainPct - a.goalGainPct)[0];
  return [
    ...(best === undefined || best.partsPerHPerSecond <= 0
      ? []
      : [
          `Gain per second saved is largest at ${best.element}: ${numbers.number(best.partsPerHPerSecond, 3)} parts an hour.`,
        ]),
    ...(change === undefined || change.goalGainPct < 0.1
      ? []
      : [
          `Of the changes tried, ${change.change} gains most: ${gainText(change, numbers)}${change.proven ? '' : ' (best found, not proven)'}.`,
        ]),
  ];
}

/** More of what counts may come with fewer parts, where parts are worth unlike sums. */
function gainText({ partsPerH, gainPerH, goalGainPct }: WhatIf, numbers: LocaleNumbers): string {
  const parts = `${numbers.number(partsPerH, 1)} parts an hour`;
  return gainPerH > 0
    ? `${parts}, ${numbers.number(gainPerH, 1)} more`
    : `${numbers.percent(goalGainPct)} more of the target, with ${parts}`;
}

function turnSentence({ money, numbers }: ReportView): string {
  const { result } = money!;
  const turn = result.nearestTurn;
  if (turn === null) return 'No single cost item makes another choice best within its range.';
  const at = numbers.typed(Number(turn.step.at.toPrecision(3)));
  const past = turn.step.at < turn.value ? 'below' : 'above';
  return `Most sensitive cost input: ${itemLabel(turn.item)}, planned ${numbers.typed(turn.value)}: ${past} ${at} the best choice is ${planInWords(turn.step)}.`;
}
