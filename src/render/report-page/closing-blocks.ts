/** What to keep in mind: warnings, what was assumed, cautions with their rules, and what the page was made from. */

import { cautions } from '../../core/model/cautions.js';
import type { ReportResults } from '../../core/report/report-results.js';
import {
  type Block,
  type FoldBlock,
  fold,
  type InnerBlock,
  left,
  listOf,
  said,
  section,
  subsection,
  tableOf,
} from '../document/blocks.js';
import type { ReportView } from './report-view.js';

export function warningBlocks(view: ReportView): Block[] {
  const warnings = reportWarnings(view);
  if (warnings.length === 0) return [];
  return [section('Warnings'), listOf(warnings)];
}

/** Every warning once: of the tables, then of the results in the order of the page. */
export function reportWarnings({ results, facts, money }: ReportView): string[] {
  const { schedule, size, shifts, simulation, mix, jobs, points, comparison } = results;
  const of = (result: { readonly warnings: readonly string[] } | null) => result?.warnings ?? [];
  return unique([
    ...facts.warnings,
    ...[
      schedule,
      size,
      shifts,
      simulation.result,
      mix,
      bestOf(jobs),
      money?.result ?? null,
      points,
      comparison,
    ].flatMap(of),
  ]);
}

/** What is late in patterns that are not the best one is no warning: their table tells it. */
function bestOf(jobs: ReportResults['jobs']): { readonly warnings: readonly string[] } | null {
  if (jobs === null) return null;
  const others = jobs.plans.filter(({ pattern }) => pattern !== jobs.best);
  return {
    warnings: jobs.warnings.filter((text) => !others.some(({ pattern }) => text.startsWith(`${pattern}: `))),
  };
}

export function assumptionBlock(view: ReportView): FoldBlock {
  return fold(
    'What was assumed',
    assumptionGroups(view).flatMap(({ title, texts }): InnerBlock[] => [subsection(title), listOf(texts)]),
  );
}

interface AssumptionGroup {
  readonly title: string;
  readonly texts: readonly string[];
}

/** What each result rests on, each sentence once; groups that have nothing of their own are left out. */
export function assumptionGroups({ results, money }: ReportView): AssumptionGroup[] {
  const groups: readonly (readonly [string, readonly string[]])[] = [
    ['Robot cycle', results.schedule.assumptions],
    ['The number of machines', results.size.assumptions],
    ['The week', results.shifts?.patterns.flatMap((p) => p.assumptions) ?? []],
    ['Downtime and variation', results.simulation.result.assumptions],
    ['The mix', results.mix?.assumptions ?? []],
    ['The jobs', results.jobs?.assumptions ?? []],
    ['The layouts', results.comparison?.assumptions ?? []],
    ['Boxes and harness', money?.result.assumptions ?? []],
    ['Points', results.points?.assumptions ?? []],
  ];
  const seen = new Set<string>();
  return groups.flatMap(([title, all]) => {
    const texts = unique(all).filter((text) => !seen.has(text));
    for (const text of texts) seen.add(text);
    return texts.length === 0 ? [] : [{ title, texts }];
  });
}

/** Cautions of the questions that the page answers; what belongs to every report stays. */
export function cautionBlocks({ results }: ReportView): Block[] {
  const asked = new Set(commandsOf(results));
  const shown = cautions.filter(
    ({ commands }) => commands.includes('report') && commands.some((name) => asked.has(name)),
  );
  return [
    section('What it rests on'),
    said(
      'The figures are estimates for a decision. They replace neither a risk assessment by competent people nor local rules.',
    ),
    fold('Cautions in full', [
      { kind: 'list', quoted: true, items: shown.map(({ text, reference }) => `${text} (${reference})`) },
    ]),
  ];
}

/** The commands whose results are on the page. */
function commandsOf(results: ReportResults): string[] {
  return [
    'schedule',
    'size',
    'simulate',
    ...(results.shifts === null ? [] : ['shifts']),
    ...(results.mix === null ? [] : ['mix']),
    ...(results.jobs === null ? [] : ['jobs']),
    ...(results.comparison === null ? [] : ['compare']),
    ...(results.costCase === null ? [] : ['costcase']),
    ...(results.points === null ? [] : ['io']),
  ];
}

export function sourceBlock({ facts }: ReportView): FoldBlock {
  return fold('Versions and tables', [
    said(
      `Made by ${facts.program}. The same tables give the same page, to the letter: nothing on it depends on the day or on the machine.`,
    ),
    tableOf(
      'Tables that were read',
      [left('file'), left('SHA-256')],
      facts.files.map(({ file, sha256 }) => [file, sha256]),
      { quoted: true },
    ),
  ]);
}

function unique(texts: readonly string[]): string[] {
  return [...new Set(texts)];
}
