// Every example of every help text runs as it stands: in the quick run the first of each command with a small cell as
// `my-cell` (but of those that take longest, which have tests of their own), in the deep run all but reports, in the long one all, where the first,
// `init my-cell`, has run.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { allCommands, loadCommand } from '../../src/cli/all-commands.js';
import { quickShop } from '../support/quick-shop.js';
import { atSize, isLong } from '../support/size.js';
import { freshFolder, run, runIn } from './run-in.js';

const cwd = freshFolder();

beforeAll(async () => {
  if (isLong) expect((await runIn(cwd, ['init', 'my-cell'])).exit).toBe(0);
  else quickShop(join(cwd, 'my-cell'));
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

  const isRunElsewhere = atSize(
    /^(init|report|simulate|size|compare|invest|sweep|brief|jobs|costcase|my-cell)( |$)/,
    /^(init|report) /,
    /^init /,
  );
  const examples = spec.examples.filter((example) => !isRunElsewhere.test(example));
  test.each(atSize(examples.slice(0, 1), examples))('%s', async (example) => {
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
