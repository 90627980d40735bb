// `--locale` changes how every answer writes its figures, and nothing else.
import { expect, test } from 'vitest';
import { data, runIn } from './run-in.js';

const demo = data('demo');
const commands: readonly (readonly string[])[] = [
  ['mix', demo],
  ['io', demo],
  ['sweep', data('wash-line'), '--sweep', 'routes.sleeve.2.cycle_s=80,90', '--workers', '1'],
  [
    'size',
    '--cycle',
    '254.8',
    '--load',
    '12.5',
    '--unload',
    '9.5',
    '--travel',
    '3',
    '--max',
    '3',
    '--no-simulation',
  ],
];

/** German swaps the signs of English and sets a blank before that of per cent. */
const back = (text: string): string =>
  text.replace(/(?<=\d)[.,](?=\d)/g, (sign) => (sign === '.' ? ',' : '.')).replaceAll('\u00A0%', '%');

/** Without quoted options, references and the lengths of lines. */
const bare = (text: string): string =>
  text
    .split('\nCautions\n')[0]!
    .replace(/`[^`]*`/g, '')
    .replace(/[\s─]+/g, ' ');

test.each(commands.map((args) => [args[0]!, args] as const))('%s', async (_, args) => {
  const english = (await runIn(demo, args)).out;
  const german = (await runIn(demo, [...args, '--locale', 'de-DE'])).out;
  expect(english).toMatch(/\d\.\d/);
  expect(german).not.toBe(english);
  for (const line of german.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  expect(bare(back(german))).toBe(bare(english));
});

test('--json is the same in every language', async () => {
  const args = ['mix', demo, '--json'];
  expect((await runIn(demo, [...args, '--locale', 'de-DE'])).out).toBe((await runIn(demo, args)).out);
});
