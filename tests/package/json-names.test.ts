// docs/json.md names fields that the answers have.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { shopJson } from '../support/shop-answers.js';

const text = readFileSync(new URL('../../docs/json.md', import.meta.url), 'utf8');

/** Names in the entry of a command, without those within brackets and those that only some runs have. */
function namedFields(command: string): string[] {
  const entry = text.split(/^- /m).find((item) => item.startsWith(`\`${command}\`:`))!;
  let outer = entry.slice(entry.indexOf(':'));
  for (let before = ''; before !== outer; ) {
    before = outer;
    outer = outer.replace(/\([^()[\]{}]*\)|\[[^()[\]{}]*\]|\{[^()[\]{}]*\}/g, '');
  }
  return [...outer.split(/[.;] ?(?:Where|with)\b/)[0]!.matchAll(/`(\w+)`/g)].map(([, name]) => name!);
}

test.each(['check', 'schedule', 'shifts', 'costcase', 'io', 'mix', 'setups'])(
  'the answer of %s has the fields that docs/json.md names',
  async (command) => {
    const fields = namedFields(command);
    expect(fields.length).toBeGreaterThan(1);
    expect(Object.keys(await shopJson(command))).toEqual(expect.arrayContaining(fields));
  },
);
