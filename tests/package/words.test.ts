// One word for one thing, the trade's own: words that the program's texts had, and must not have again. Looked through are
// the texts in the code (every string with a blank in it), the printed examples, the help and the pages.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { allCommands } from '../../src/cli/all-commands.js';
import { root, run } from '../cli/run-in.js';

/** What is not to be read, and what stands for it. */
const FORBIDDEN: readonly (readonly [found: RegExp, better: string])[] = [
  [/\brounds?\b(?! (down|up|to)\b)/i, 'robot cycle'],
  [/\bsets? the pace\b/i, 'bottleneck'],
  [/\b(second|one|two|both|each|that) hands?\b/i, 'single or dual gripper'],
  [/\bluck\b/i, 'the same random numbers'],
  [/\bscatters?\b/i, 'variation'],
  [/\b(told|tells?)\b/i, 'shown, reported'],
  [/\bmends?\b/i, 'fix'],
  [/\b(stands?|stood|standing)\b/i, 'idle, blocked, starved, down, stopped'],
  [/\bunmanned\b/i, 'unattended'],
  [/\bin all\b(?! (hours|open))/i, 'total'],
  [/\bacts\b/i, 'moves'],
  [/\b(both|the|in neither|which|either of the) ways\b/i, 'options, trips'],
  [/\bset-ups?\b(?!\s+min)/i, 'changeover; set-up minutes'],
  [/\d %(?![\w(])/, 'no blank before %'],
  [/\b(may|can|will) be had\b|\bcannot be had\b/i, 'upper limit'],
  [/\btips?\b|\bturns (first|soonest)\b/i, 'most sensitive input'],
  [/\bsure to \d|\bsure of \d/i, 'confidence'],
  [/\bthe (fullest|scarcest)\b/i, 'busiest; bottleneck'],
  [/\beight of ten\b|\bone shift in ten\b/i, 'P10 to P90'],
  [/\bspent at start\b|\bthe same a year\b|\bbenefit for each unit\b/i, 'terms of finance'],
];

/** Names of files and fields that keep their name, and a book's own words. */
const KEPT = /`[^`]*`|\b[a-z_]+\.csv\b|--robot-stands|Internal and external set-up|stroke-line\w+:round/g;

function faults(text: string): string[] {
  const said = text.replace(KEPT, '');
  return FORBIDDEN.flatMap(([found, better]) => {
    const hit = found.exec(said);
    return hit === null
      ? []
      : [`"${hit[0]}" (${better}) in: ${said.slice(Math.max(0, hit.index - 60), hit.index + 60)}`];
  });
}

test('the list finds what it is there for', () => {
  const old = [
    'One round of the robot takes 741.3 s',
    'lathe_1 sets the pace',
    'a second hand',
    'under the same luck',
    'stops and scatter are not in it',
    'is told with its reason',
    'To mend: write it',
    'the cell stood until Wed',
    'an unmanned night',
    'busy in all',
    'this chain of acts leaves no slack',
    'Set-up common to both ways',
    '6 set-ups, 351 min',
    'at most 3 % more',
    '10 EUR to 20 EUR in eight of ten',
    'the same a year',
  ];
  for (const text of old) expect(faults(text), text).not.toEqual([]);
  expect(faults('25 set-up minutes, 3% of a robot cycle')).toEqual([]);
});

function filesUnder(folder: string, ending: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending))
    .map((name) => join(folder, name));
}

/** Functions that make a column, and which of their words is its heading. */
const HEADING_OF: Readonly<Record<string, number>> = {
  figures: 1,
  words: 1,
  estimated: 1,
  right: 0,
  left: 0,
};

/** Whether a text of one word is read as well: the heading of a column. */
function isHeading(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isPropertyAssignment(parent)) return parent.name.getText() === 'heading';
  if (!ts.isCallExpression(parent)) return false;
  const place = HEADING_OF[parent.expression.getText()];
  return place !== undefined && parent.arguments[place] === node;
}

const codeOf = (file: string): string => readFileSync(join(root, file), 'utf8');

/** Whether any word of the list is in a file at all, as code, remark or text: only then is it taken apart. */
function mayBeAtFault(file: string): boolean {
  const said = codeOf(file)
    .replaceAll(/\\[nt]/g, ' ')
    .replaceAll('}', '1');
  return FORBIDDEN.some(([found]) => found.test(said));
}

/** The pieces of text in a source file that hold a blank, and headings: names and keys have none. */
function textsOf(file: string): string[] {
  const source = ts.createSourceFile(file, codeOf(file), ts.ScriptTarget.Latest, true);
  const texts: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isStringLiteralLike(node) && (/\S\s\S/.test(node.text) || isHeading(node))) texts.push(node.text);
    // What is put into a template counts as a number, so that `${share}%` is found.
    if (ts.isTemplateExpression(node))
      texts.push([node.head.text, ...node.templateSpans.map((span) => span.literal.text)].join(' 1'));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return texts;
}

describe('no word of the list', () => {
  test('headings of columns are read, of one word too', () => {
    const found = filesUnder('src/render/result-tables', '.ts').flatMap(textsOf);
    for (const heading of ['pattern', 'downtime\nmin', 'remaining', 'change-\novers'])
      expect(found).toContain(heading);
  });

  test('in a text of the code', () => {
    const found = filesUnder('src', '.ts')
      .filter(mayBeAtFault)
      .flatMap((file) =>
        textsOf(file)
          .flatMap(faults)
          .map((fault) => `${file}: ${fault}`),
      );
    expect(found).toEqual([]);
  });

  test('in the printed examples and the pages', () => {
    const pages = ['README.md', ...filesUnder('docs', '.md').filter((name) => !name.includes('mutants'))];
    const found = [...pages, ...filesUnder('tests/render/golden', '')].flatMap((file) =>
      readFileSync(join(root, file), 'utf8')
        .split('\n')
        .flatMap(faults)
        .map((fault) => `${file}: ${fault}`),
    );
    expect(found).toEqual([]);
  });

  test.each(allCommands.map(({ name }) => name))('in the help of %s', async (name) => {
    expect(faults((await run([name, '--help'])).out)).toEqual([]);
  });
});
