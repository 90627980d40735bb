// Keeps README.md and the pages of docs/ true: the reference of tables, items and codes is written from the program's own
// lists, and every shown output is the output of the shown command on the shown tables. `--check` changes nothing and
// ends with 1 where a page is not up to date.
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { allCommands } from '../dist/cli/all-commands.js';
import { runProgram } from '../dist/cli/run-program.js';
import { signalFormats } from '../dist/core/log/signals.js';
import { cautions } from '../dist/core/model/cautions.js';
import { connectionItems } from '../dist/core/model/connection-items.js';
import { costItems } from '../dist/core/model/cost-items.js';
import { complaintCodes } from '../dist/tables/complaint-codes.js';
import { distributionFormats } from '../dist/tables/distributions.js';
import { tableLimits } from '../dist/tables/limits.js';
import { stationKinds } from '../dist/tables/station-kinds.js';
import { besideFormats, tableFormats } from '../dist/tables/table-formats.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const pages = ['README.md', ...readdirSync(join(root, 'docs')).map((name) => `docs/${name}`)]
  .filter((name) => name.endsWith('.md'))
  .map((name) => ({ name, path: join(root, name), before: readFileSync(join(root, name), 'utf8') }));
const whole = pages.map((page) => page.before).join('\n');

const code = (text) => `\`${text}\``;

/** The lists hold our own words only: code spans stay, and bars are kept from parting cells. */
function markdownTable(headings, rows) {
  const line = (cells) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(headings), `| ${headings.map(() => '---').join(' | ')} |`, ...rows.map(line)].join('\n');
}

function columnsTable(columns) {
  const rows = columns.map((c) => [
    code(c.name),
    c.unit,
    c.default ?? 'needed',
    `${c.meaning} (${c.allowed})`,
  ]);
  return markdownTable(['column', 'unit', 'empty cell', 'meaning (what it may hold)'], rows);
}

const generated = {
  tables: () =>
    tableFormats
      .map((format) => {
        const need = format.needed ? 'needed' : 'optional';
        const settings = format.settings ? `\n\nSettings:\n\n${columnsTable(format.settings)}` : '';
        return `### ${format.file} (${need})\n\nHolds ${format.meaning}.\n\n${columnsTable(format.columns)}${settings}`;
      })
      .join('\n\n'),
  readings: () => columnsTable(besideFormats.find((format) => format.file === 'readings.csv').columns),
  items: () =>
    markdownTable(
      ['item', 'unit', 'default', 'meaning'],
      costItems.map((item) => [
        code(item.name),
        item.unit,
        item.needed ? 'needed' : item.default === null ? 'none' : String(item.default) || 'empty',
        item.choices.length > 0 ? `${item.meaning} (${item.choices.join(', ')})` : item.meaning,
      ]),
    ),
  connection: () =>
    markdownTable(
      ['item', 'unit', 'default', 'meaning'],
      connectionItems.map((item) => [
        code(`coupling.${item.name}`),
        item.unit,
        item.default === null ? 'none' : '0',
        item.meaning,
      ]),
    ),
  kinds: () =>
    markdownTable(
      ['kind', 'what it is'],
      Object.entries(stationKinds).map(([name, meaning]) => [code(name), meaning]),
    ),
  distributions: () =>
    markdownTable(
      ['distribution', 'columns a, b, c'],
      Object.entries(distributionFormats).map(([name, { meaning }]) => [code(name), meaning]),
    ),
  codes: () =>
    markdownTable(
      ['code', 'meaning'],
      Object.entries(complaintCodes).map(([name, meaning]) => [code(name), meaning]),
    ),
  commands: () =>
    markdownTable(
      ['command', 'what it does'],
      allCommands.map((spec) => [code(`${spec.name} ${spec.usage}`), spec.summary]),
    ),
  limits: () =>
    [
      `tables of up to ${tableLimits.bytesPerTable / 1024 / 1024} MB and ${tableLimits.rowsPerTable.toLocaleString('en')} rows`,
      `${tableLimits.stations} stations, ${tableLimits.parts} parts`,
      `names of up to ${tableLimits.nameCharacters} characters`,
      `numbers from ${tableLimits.smallestNumber} to ${tableLimits.largestNumber} in amount`,
    ]
      .map((text) => `- ${text}`)
      .join('\n'),
  signals: () =>
    markdownTable(
      ['signal', 'of the', 'says', 'its drop'],
      Object.entries(signalFormats).map(([name, { of, meaning, whenLow }]) => [
        code(name),
        of,
        meaning,
        whenLow === null ? 'nothing' : code(whenLow),
      ]),
    ),
  cautions: () => cautions.map(({ text, reference }) => `- ${text} (${reference})`).join('\n'),
};

const folder = mkdtempSync(join(tmpdir(), 'roundsman-readme-'));
writeTables(whole);
const outputs = await runCommands(whole);
rmSync(folder, { recursive: true, force: true });

/** `<!-- file NAME -->` before a block: the block is written under that name. */
function writeTables(text) {
  for (const [, name, body] of text.matchAll(/<!-- file ([\w./-]+) -->\n```csv\n([\s\S]*?)```/g)) {
    mkdirSync(join(folder, dirname(name)), { recursive: true });
    writeFileSync(join(folder, name), body);
  }
}

/** `<!-- run N: roundsman … -->` before a block: the block is the first N lines of what the command prints. */
async function runCommands(text) {
  const found = new Map();
  for (const [, lines, line] of text.matchAll(/<!-- run (\d+): roundsman (.*?) -->/g)) {
    let out = '';
    const io = {
      stdout: (said) => {
        out += said;
      },
      stderr: (said) => {
        out += said;
      },
      cwd: folder,
      isTTY: false,
      isErrorTTY: false,
      columns: undefined,
      env: {},
      platform: 'linux',
    };
    await runProgram(line.split(' '), io);
    found.set(
      `${lines}: roundsman ${line}`,
      `${out.split('\n').slice(0, Number(lines)).join('\n').trimEnd()}\n`,
    );
  }
  return found;
}

function upToDate({ name: page, before }) {
  return before
    .replace(/(<!-- generated (\w+) -->\n)[\s\S]*?(<!-- end -->)/g, (_, start, name, end) => {
      if (!generated[name]) throw new Error(`${page} asks for ${code(name)}, which the script does not know`);
      return `${start}\n${generated[name]()}\n\n${end}`;
    })
    .replace(/(<!-- run (\d+: roundsman .*?) -->\n```text\n)[\s\S]*?(```)/g, (_, start, key, end) => {
      return `${start}${outputs.get(key)}${end}`;
    });
}

const stale = pages.filter((page) => upToDate(page) !== page.before);
if (!process.argv.includes('--check')) for (const page of stale) writeFileSync(page.path, upToDate(page));
else if (stale.length > 0) {
  const names = stale.map((page) => page.name).join(', ');
  process.stderr.write(`Not up to date: ${names}. Run \`npm run readme\` and read what changed.\n`);
  process.exitCode = 1;
}
