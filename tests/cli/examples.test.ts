// Every example of every help text runs as it stands in a folder where the first of them, `init my-cell`, has run: in the
// quick run the last of each command, in the deep run all of them.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { allCommands, loadCommand } from '../../src/cli/all-commands.js';
import { atSize } from '../support/size.js';
import { freshFolder, run, runIn } from './run-in.js';

const cwd = freshFolder();

beforeAll(async () => {
  expect((await runIn(cwd, ['init', 'my-cell'])).exit).toBe(0);
  // What `invest` holds against it: a variant with its price.
  mkdirSync(join(cwd, 'my-cell-dual'));
  writeFileSync(join(cwd, 'my-cell-dual/base.csv'), 'folder\n../my-cell\n');
  writeFileSync(join(cwd, 'my-cell-dual/costs.csv'), 'item,value\ninvest_price,9000\n');
});

const specs = await Promise.all(allCommands.map(loadCommand));

describe.each(specs)('$name', (spec) => {
  test('--help prints its examples and ends with 0', async () => {
    const said = await run([spec.name, '--help']);
    expect(said.exit).toBe(0);
    expect(said.err).toBe('');
    expect(spec.examples.length).toBeGreaterThan(0);
    for (const example of spec.examples) expect(said.out).toContain(`\n  roundsman ${example}\n`);
    expect(said.out).toContain('--json');
  });

  const examples = spec.examples.filter((example) => !example.startsWith('init '));
  test.each(atSize(examples.slice(-1), examples))('%s', async (example) => {
    const said = await runIn(cwd, example.split(' '));
    expect(said.err).toBe('');
    expect(said.exit).toBe(0);
    expect(said.out.length).toBeGreaterThan(50);
  });
});

test('the help of the program names every command and its exit statuses', async () => {
  const said = await run(['--help']);
  expect(said.exit).toBe(0);
  for (const { name } of allCommands) expect(said.out).toMatch(new RegExp(`^ {2}${name} `, 'm'));
  expect(said.out).toContain('Exit status: 0 done; 1 the input is wrong; 2 wrong use');
});

test('no command at all prints the help and is a wrong use', async () => {
  const said = await run([]);
  expect(said.exit).toBe(2);
  expect(said.out).toBe('');
  expect(said.err).toContain('Usage: roundsman <command>');
});
