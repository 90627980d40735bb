// `--set` on the commands: the figures follow, the result says so, and a mistyped path ends with 1 before any work.
import { expect, test } from 'vitest';
import { allCommands } from '../../src/cli/all-commands.js';
import { data, run } from './run-in.js';

test('every command that reads a folder takes it and tells so', async () => {
  for (const spec of allCommands) {
    const { out } = await run([spec.name, '--help']);
    const reads = spec.usage.includes('folder') && spec.name !== 'init';
    expect(out.includes('--set <path=value>'), spec.name).toBe(reads);
  }
});

test('the schedule is that of the changed table, and the assumptions say what was changed', async () => {
  const set = ['--set', 'routes.sleeve.2.cycle_s=200', '--set', 'robot.cost_per_h=5'];
  const before = JSON.parse((await run(['schedule', data('wash-line'), '--json'])).out);
  const after = JSON.parse((await run(['schedule', data('wash-line'), '--json', ...set])).out);
  // The lathe sets the pace of this cell, so its round grows by the 104 s that its cycle of 96 s grows.
  const perPart = (s: typeof after): number => s.periodS / s.partsPerPeriod.sleeve;
  expect(perPart(after) - perPart(before)).toBeCloseTo(104, 9);
  expect(after.assumptions[0]).toMatch(
    /^routes\.sleeve\.2\.cycle_s is 200, as the command line says; routes\.csv has \d+\.$/,
  );
});

test('a mistyped path ends with 1, with the near name, and nothing is computed', async () => {
  const said = await run(['schedule', data('wash-line'), '--set', 'routes.sleve.2.cycle_s=200']);
  expect(said).toMatchObject({ exit: 1, out: '' });
  expect(said.err).toContain('Did you mean `sleeve`?');
  expect(said.err).toContain('No results.');
});

test('without a folder it is a wrong use', async () => {
  const size = ['size', '--cycle', '240', '--load', '12', '--unload', '10', '--travel', '4'];
  const said = await run([...size, '--set', 'robot.hands=2']);
  expect(said).toMatchObject({ exit: 2, out: '' });
  expect(said.err).toContain('name the folder too');
});
