// Control characters of arguments are shown, never sent to the terminal.
import { expect, test } from 'vitest';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const BAD = 'a\u001b[2J\u202eb';
const SHOWN = 'a␛[2J<U+202E>b';
const cell = data('starter');
const sweep = ['sweep', cell, '--workers', '1', '--sweep'];

test.each([
  ['a pattern', ['simulate', cell, '--pattern', BAD]],
  ['a way', ['shifts', cell, '--connection', `${BAD}=box`]],
  ['a figure', [...sweep, 'robot.cost_per_h=1,2', '--figure', BAD]],
  ['a path of a sweep', [...sweep, `${BAD}=1,2`]],
  ['a change', ['check', cell, '--set', `${BAD}=1`]],
  ['a command', [BAD]],
  ['an option', ['check', cell, `--${BAD}`]],
  ['a folder', ['check', BAD]],
  ['a second folder', ['compare', cell, BAD, BAD]],
  ['a file to merge', ['sweep', '--merge', BAD, '--out', 'x.csv']],
  ['a log', ['log', BAD]],
  ['a zone', ['log', 'x.csv', '--zone', BAD]],
  ['a file to write', [...sweep, 'robot.cost_per_h=1,2', '--out', `${BAD}.csv`]],
  ['a folder to write', ['setups', cell, '--out', BAD]],
] as const)('%s', async (_name, args) => {
  const said = await runIn(cwd, args);
  const all = said.out + said.err;
  expect(all.replace(/\n/g, '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  expect(all).toContain(SHOWN);
});
