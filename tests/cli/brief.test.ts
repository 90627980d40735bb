// A folder or a workbook without a command: at most 15 lines, the same figures as the commands that they name.
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type BriefFacts, briefAnswers, renderBrief } from '../../src/render/brief.js';
import { numberText } from '../../src/render/numbers.js';
import { plainStyle } from '../../src/render/text-style.js';
import { quickShop } from '../support/quick-shop.js';
import { sharedShop, shopJson } from '../support/shop-answers.js';
import { atSize, deepTest, isDeep } from '../support/size.js';
import { data, freshFolder, root, run, runIn } from './run-in.js';

interface RenderedBrief {
  readonly answers: Parameters<typeof renderBrief>[0];
}

const small: [string, string] = ['a cell with every table', sharedShop];
const large = atSize([], ['wash-line'], ['demo', 'weekly-jobs', 'wash-line']).map(
  (name): [string, string] => [name, data(name)],
);

/** Of the small cell the answers are worked out once, and drawn here as the command draws them. */
async function textOf(folder: string): Promise<string> {
  if (folder === sharedShop && !isDeep)
    return renderBrief(((await shopJson('brief')) as RenderedBrief).answers, folder, plainStyle);
  const { exit, out, err } = await run([folder]);
  expect({ exit, err }).toEqual({ exit: 0, err: '' });
  return out;
}

test.each([small, ...large])('%s in at most 15 lines, each question once', async (_, folder) => {
  const out = await textOf(folder);
  expect(out.trimEnd().split('\n').length).toBeLessThanOrEqual(15);
  const titles = out.match(/^[A-Z][a-z ]+(?=:)/gm);
  expect(titles).toEqual(['Rate', 'Machines', 'Shift and week', 'Night', 'Boxes or harness']);
  for (const command of ['schedule', 'size', 'shifts', 'costcase'])
    expect(out).toContain(`(roundsman ${command}`);
});

test('a cell without a sequence says why, and that the rest waits for it', async () => {
  const { exit, out, err } = await run([data('no-schedule')]);
  expect({ exit, out }).toEqual({ exit: 3, out: '' });
  expect(err.trimEnd().split('\n').length).toBeLessThanOrEqual(15);
  expect(err).toMatch(/^Rate: No feasible repeating sequence\. No sequence meets the maximum wait/);
  expect(err.match(/^[A-Z][a-z ]+(?=:)/gm)).toEqual([
    'Rate',
    'Machines',
    'Shift and week',
    'Night',
    'Boxes or harness',
  ]);
});

test('parts that the best sequence never makes are named beside its rate', async () => {
  const found = (await shopJson('schedule')) as unknown as BriefFacts['schedule'];
  const schedule = { ...found, partsPerPeriod: { ...found.partsPerPeriod, spare: 0 } };
  const facts = { cell: { shifts: [] }, schedule, size: { recommended: null }, shifts: null, costCase: null };
  const [rate] = briefAnswers(facts as unknown as BriefFacts);
  expect(rate!.answer).toContain(' Not made at all: spare. ');
  expect(briefAnswers({ ...facts, schedule: found } as unknown as BriefFacts)[0]!.answer).not.toContain(
    'Not made',
  );
});

test('its figures are those of the commands', async () => {
  const { answers } = (await shopJson('brief')) as RenderedBrief;
  const answerTo = (question: string): string => answers.find((a) => a.question === question)!.answer;
  const [schedule, shifts, size] = await Promise.all([
    shopJson('schedule'),
    shopJson('shifts'),
    shopJson('size', '--no-simulation'),
  ]);
  expect(answerTo('rate')).toContain(`${numberText(schedule.partsPerH.total, 1)} parts an hour`);
  expect(answerTo('rate')).toContain(schedule.bottleneck.text);
  expect(answerTo('machines')).toBe(size.recommended.reason);
  const best = shifts.patterns.find((p: { pattern: string }) => p.pattern === shifts.best.byContribution);
  expect(answerTo('week')).toContain(
    `${numberText(best.partsPerShift.total, 1)} good parts a shift at constant times, ${numberText(best.partsPerWeek.total)} a week`,
  );
  const night = shifts.patterns.find((p: { unattendedH: number }) => p.unattendedH > 0);
  const made = night.byShift.find((s: { shift: string }) => s.shift === 'evening').partsPerShift;
  expect(answerTo('night')).toContain(`evening ${numberText(made, 1)}.`);
});

deepTest('a workbook and settings do as well; a command of the same name wins', async () => {
  const folder = freshFolder();
  cpSync(join(root, 'tests/support/workbooks/office.xlsx'), join(folder, 'my cell.xlsx'));
  quickShop(join(folder, 'io'));
  const plain = await runIn(folder, ['my cell.xlsx']);
  expect(plain.out.replace(/\s+/g, ' ')).toContain('(roundsman schedule "my cell.xlsx")');
  const set = [data('two-hands'), '--set', 'robot.hands=1'];
  const { partsPerH } = JSON.parse((await run(['schedule', ...set, '--json'])).out);
  expect((await run(set)).out).toContain(`${numberText(partsPerH.total, 1)} parts an hour`);
  expect((await runIn(folder, ['io'])).err).toContain('The command needs a folder');
});

test('what is neither command nor folder is told', async () => {
  expect(await run(['no-such-cell'])).toMatchObject({ exit: 2, err: expect.stringContaining('no command') });
  expect(await run(['no-such-cell.ods'])).toMatchObject({ exit: 1, err: expect.stringContaining('FIL01') });
});

test('a long answer ends with the last sentence that fits, before the command', () => {
  const sentence = 'Thirty parts an hour, of which ten are caps and the others rings. ';
  const text = renderBrief(
    [{ question: 'rate', answer: sentence.repeat(4).trim(), command: 'schedule' }],
    'my-cell',
    plainStyle,
  );
  expect(text.replace(/\s+/g, ' ').trim()).toBe(`Rate: ${sentence}${sentence}… (roundsman schedule my-cell)`);
});

test('a long answer of one sentence is cut to its lines', () => {
  const answers = Array.from({ length: 5 }, () => {
    return { question: 'rate', answer: 'word '.repeat(200).trim(), command: 'schedule' } as const;
  });
  const lines = renderBrief(answers, 'my-cell', plainStyle).trimEnd().split('\n');
  expect(lines).toHaveLength(15);
  expect(lines[2]).toBe('  (roundsman schedule my-cell)');
  expect(lines[1]).toMatch(/…$/);
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(plainStyle.columns);
});
