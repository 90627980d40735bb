// Wherever the command line takes a number, a decimal comma is read; where it may part thousands, that is asked.
import type { Option } from 'commander';
import { describe, expect, test } from 'vitest';
import { allCommands, loadCommand } from '../../src/cli/all-commands.js';
import { readAxis } from '../../src/core/sweep/sweep-axis.js';
import { freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();

/** What an option makes of a text; undefined where it takes none such. */
function taken(option: Option, text: string): unknown {
  try {
    return option.parseArg?.(text, undefined as never);
  } catch {
    return undefined;
  }
}

test('every option of every command that takes 1.5 or 75.5 takes it with a comma', async () => {
  const found: string[] = [];
  for (const spec of await Promise.all(allCommands.map(loadCommand)))
    for (const option of spec.options())
      for (const text of ['1.5', '75.5']) {
        const value = taken(option, text);
        if (typeof value !== 'number') continue;
        found.push(`${spec.name} ${option.long}`);
        expect(taken(option, text.replace('.', ',')), found.at(-1)).toBe(value);
      }
  expect(new Set(found).size).toBeGreaterThanOrEqual(30);
});

test.each([
  ['1,234', 'Write `1.234` if the comma is a decimal one, `1234` if it parts the thousands.'],
  ['1.234,5', 'Leave out the thousands separators: `1234.5`.'],
  ['240 s', 'Write the number alone, `240`, without a unit.'],
])('%s is asked about', async (text, help) => {
  const { exit, err } = await runIn(cwd, [
    'size',
    '--cycle',
    text,
    '--load',
    '1',
    '--unload',
    '1',
    '--travel',
    '1',
  ]);
  expect(exit).toBe(2);
  expect(err.replace(/\s+/g, ' ')).toContain(help);
});

describe('values of a sweep', () => {
  const valuesOf = (text: string) => {
    const reading = readAxis(`a.b.c=${text}`);
    return reading.ok ? reading.axis.values : reading.fault;
  };
  test.each([
    ['0,5:2:0,5', ['0.5', '1', '1.5', '2']],
    ['0,5;1;1,5', ['0.5', '1', '1.5']],
    ['1;2', ['1', '2']],
    ['1,5', ['1', '5']],
  ])('%s', (text, values) => expect(valuesOf(text)).toEqual(values));
  test('an empty one between semicolons is refused', () =>
    expect(valuesOf('0,5;;1')).toContain('empty value'));
});

test('a changed cell takes it, and `check` lists how it was read', async () => {
  await runIn(cwd, ['init', 'cell']);
  const { exit, out } = await runIn(cwd, ['check', 'cell', '--set', 'routes.cap.2.cycle_s=200,5']);
  expect(exit).toBe(0);
  expect(out).toContain('200,5');
  expect(out).toContain('200.5');
});
