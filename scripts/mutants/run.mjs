// Changes one folder of the core on purpose, fault by fault, and counts how many of them its tests notice:
// `npm run mutants -- cost/finance`, or `-- schedule/evaluate/least-period.ts` for one file; `tables` for the tables. The tests are
// those of the same place; of a file without tests of its own those of its folder. Lists what no test noticed and writes the
// place's row of docs/mutants.md. Slow, and no part of the checks of every change. A folder is worked through in pieces of a
// few files, each of which is kept: a run that was broken off goes on where it was, and a second run takes over what
// neither program nor tests have changed.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const place = process.argv[2] ?? '';
const source = [`src/core/${place}`, `src/${place}`].find((path) => existsSync(join(root, path)));
if (place === '' || source === undefined) {
  process.stderr.write(
    'Name a folder or file of src/core, or a folder of src, such as `npm run mutants -- cost/finance`.\n',
  );
  process.exit(2);
}

/** Tests of folders that lie in another place: the floor is asked through simulation and shifts, overrides through folders. */
const ELSEWHERE = {
  'src/core/floor': ['tests/core/simulate', 'tests/core/shifts'],
  'src/tables/overrides': ['tests/files/read-layers.test.ts'],
};
/** Tests that would take too long for each fault: of what is searched, of random texts, of the largest tables, of workbooks. */
const TOO_SLOW = [
  'tests/core/schedule/evaluate/check-schedule.test.ts',
  'tests/tables/formula-guard.test.ts',
  'tests/tables/limits.test.ts',
  'tests/tables/page.test.ts',
  'tests/tables/round-trip.test.ts',
];
/** Lines of program in one piece, unless one file alone has more. */
const PIECE_LINES = 800;

const filesUnder = (at, ending) =>
  readdirSync(join(root, at), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith(ending))
    .map((file) => join(at, file).replaceAll('\\', '/'))
    .sort();

const quickTests = filesUnder('tests', '.test.ts').filter((file) => !TOO_SLOW.includes(file));
const isFile = statSync(join(root, source)).isFile();
const inTests = (at) => at.replace(/^src/, 'tests').replace(/\.ts$/, '.test.ts');
const home = isFile && !quickTests.includes(inTests(source)) ? dirname(source) : source;
const asked = process.argv.slice(3);
const testPlaces = asked.length > 0 ? asked : [inTests(home), ...(ELSEWHERE[home] ?? [])];
const include = quickTests.filter((file) =>
  testPlaces.some((at) => file === at || file.startsWith(`${at}/`)),
);
if (include.length === 0) {
  process.stderr.write(`There is no test in ${testPlaces.join(', ')}; name the tests after the place.\n`);
  process.exit(2);
}

const cache = join(root, 'node_modules/.cache/mutants', place.replaceAll('/', '.'));
const require = createRequire(import.meta.url);
const manifest = require.resolve('@stryker-mutator/core/package.json');
const { version, bin } = JSON.parse(readFileSync(manifest, 'utf8'));

/** Files one after another, as many together as `PIECE_LINES` allows: to begin a run takes a while. */
function piecesOf(files) {
  const pieces = [];
  let lines = Number.POSITIVE_INFINITY;
  for (const file of files) {
    const own = readFileSync(join(root, file), 'utf8').split('\n').length;
    if (lines + own > PIECE_LINES) {
      pieces.push([]);
      lines = 0;
    }
    pieces.at(-1).push(file);
    lines += own;
  }
  return pieces;
}

/** @returns the faults put into these files, by file, with what became of each */
function resultsOf(files) {
  const folder = join(cache, files[0].replaceAll('/', '.'));
  mkdirSync(folder, { recursive: true });
  const json = join(folder, 'mutants.json');
  const vitestConfig = join(folder, 'vitest.config.mjs');
  const test = {
    include,
    setupFiles: ['tests/support/property-seed.ts', 'scripts/mutants/end-early.mjs'],
    isolate: false,
    testTimeout: 60_000,
  };
  writeFileSync(
    vitestConfig,
    `import { keptThread } from ${JSON.stringify(join(root, 'scripts/mutants/kept-thread.mjs'))};
export default { plugins: [keptThread], test: ${JSON.stringify(test)} };
`,
  );
  const config = join(folder, 'stryker.config.json');
  writeFileSync(
    config,
    JSON.stringify({
      testRunner: 'vitest',
      vitest: { configFile: vitestConfig, related: false },
      mutate: files,
      // Outside the program's own folder, which stays as it is whatever ends the run.
      tempDirName: join(tmpdir(), `mutants-${process.pid}`),
      ignorePatterns: ['dist', 'reports', '.ci'],
      concurrency: 1,
      coverageAnalysis: 'perTest',
      ignoreStatic: true,
      // For what does not end elsewhere than in the faulty place itself; see end-early.mjs.
      timeoutMS: 20_000,
      incremental: true,
      incrementalFile: join(folder, 'incremental.json'),
      reporters: ['json', 'progress-append-only'],
      jsonReporter: { fileName: json },
      disableTypeChecks: false,
      allowEmpty: false,
    }),
  );
  execFileSync(process.execPath, [join(dirname(manifest), bin.stryker), 'run', config], {
    cwd: root,
    stdio: 'inherit',
  });
  const results = Object.entries(JSON.parse(readFileSync(json, 'utf8')).files);
  // Of what also happens as a file is read, Stryker runs no test for some: left out as what happens then alone.
  const isTried = ({ static: atStart, testsCompleted }) => !atStart || testsCompleted > 0;
  for (const [, file] of results) file.mutants = file.mutants.filter(isTried);
  return results;
}

function listUnnoticed(files) {
  for (const [file, { mutants, source: text }] of files) {
    const lines = text.split('\n');
    for (const { status, location, mutatorName, replacement } of mutants) {
      if (!['Survived', 'NoCoverage', 'Timeout'].includes(status)) continue;
      const { start, end } = location;
      const was =
        start.line === end.line
          ? lines[start.line - 1].slice(start.column - 1, end.column - 1)
          : `${lines[start.line - 1].slice(start.column - 1)} …`;
      const what = `${was} -> ${(replacement ?? '').replaceAll(/\s+/g, ' ')}`.slice(0, 200);
      process.stdout.write(`${file}:${start.line}:${start.column} ${status} ${mutatorName}: ${what}\n`);
    }
  }
}

/** The row of the place; of a folder that is not worked through yet it says how much of it. */
function writeRow(results, done, of) {
  const mutants = results.flatMap(([, file]) => file.mutants);
  const count = (status) => mutants.filter((mutant) => mutant.status === status).length;
  const [killed, endless] = [count('Killed'), count('Timeout')];
  const [survived, unreached] = [count('Survived'), count('NoCoverage')];
  const all = killed + endless + survived + unreached;
  if (all === 0) return process.stdout.write(`There is nothing to change in ${place}.\n`);
  const share = `${((100 * (killed + endless)) / all).toFixed(1)} %`;
  const day = new Date().toISOString().slice(0, 10);
  const what = done === of ? `\`${place}\`` : `\`${place}\`, ${done} of ${of} files`;
  const row = `| ${[what, all, killed, endless, survived, unreached, share, day, version].join(' | ')} |`;
  const path = join(root, 'docs/mutants.md');
  const lines = readFileSync(path, 'utf8').split('\n');
  const at = lines.findIndex((line) => line.startsWith(`| \`${place}\``));
  const blank = lines.findIndex((line, k) => line === '' && lines[k - 1]?.startsWith('|'));
  if (at >= 0) lines[at] = row;
  else lines.splice(blank, 0, row);
  writeFileSync(path, lines.join('\n'));
  process.stdout.write(`${row}\n`);
}

const toDo = isFile ? [source] : filesUnder(source, '.ts');
const results = [];
let done = 0;
for (const piece of piecesOf(toDo)) {
  const ofPiece = resultsOf(piece);
  listUnnoticed(ofPiece);
  results.push(...ofPiece);
  done += piece.length;
  writeRow(results, done, toDo.length);
}
