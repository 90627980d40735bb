// The rate of a cell as the page learns it: a plain rule first, then the best so far with what is still possible, then
// the result of the command; while a station is dragged the first alone.
import { expect, test } from 'vitest';
import type { AnswerSaid, Asked } from '../../src/browser/engine/messages.js';
import { sayRates } from '../../src/browser/engine/rate-stages.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import { runStudy } from '../../src/core/studies/studies.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { quickTables } from '../support/quick-shop.js';
import { withoutClock } from './cell-page.js';

const cell = inspectTables(quickTables()).cell!;

function said(asked: Partial<Asked> = {}): AnswerSaid[] {
  const answers: AnswerSaid[] = [];
  sayRates({ id: 1, question: 'schedule', cell, files: [], known: null, found: null, ...asked }, (one) => {
    if (one.kind === 'answer') answers.push(one);
  });
  return answers;
}

const rateOf = ({ schedule }: AnswerSaid): number => schedule!.partsPerH.total!;

test('a rule, the best so far, the best, then the result of the command', async () => {
  const stages = said();
  expect(stages.map(({ stage }) => stage)).toEqual(['first', 'first', 'found', 'whole']);
  const [rule, soFar, found, whole] = stages as [AnswerSaid, AnswerSaid, AnswerSaid, AnswerSaid];
  // The rule says nothing of what else is possible; the search does.
  expect([rule.schedule!.gapPct, soFar.schedule!.gapPct !== null]).toEqual([null, true]);
  expect(rateOf(rule)).toBeLessThanOrEqual(rateOf(soFar) + 1e-9);
  expect(rateOf(soFar)).toBeLessThanOrEqual(rateOf(found) + 1e-9);
  expect(rateOf(whole)).toBe(rateOf(found));
  const solver = () => Promise.reject(new Error('no solver is needed'));
  const theirs = await runStudy('schedule', { cell, schedule: null }, {}, { mixedSolver: solver });
  expect(withoutClock(whole.schedule)).toEqual(withoutClock(theirs));
  // What other sections go on from is what the commands search for them.
  expect(withoutClock(found.schedule)).toEqual(withoutClock(bestSchedule(cell, { improvements: false })));
});

test('while a station is dragged the sequence from before is answered for the new place, and nothing is searched', () => {
  const known = said().at(-1)!.schedule!;
  const answers = said({ known, rateOnly: true });
  expect(answers.map(({ stage }) => stage)).toEqual(['first']);
  expect(rateOf(answers[0]!)).toBeCloseTo(known.partsPerH.total!, 9);
  expect(answers[0]!.schedule!.searched.nodes).toBe(0);
});
