// Changes one folder of the core on purpose, fault by fault, and counts how many of them its tests notice:
// `npm run mutants -- cost/finance`, or `-- schedule/least-period.ts` for one file. Writes its row of docs/mutants.md.
// Slow, and no part of the checks of every change.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const place = process.argv[2] ?? '';
const source = join(root, 'src/core', place);
if (place === '' || !existsSync(source)) {
  process.stderr.write('Name a folder or file of src/core, such as `npm run mutants -- cost/finance`.\n');
  process.exit(2);
}

const isFile = statSync(source).isFile();
const mutate = isFile ? `src/core/${place}` : `src/core/${place}/**/*.ts`;
const folder = join(root, 'node_modules/.cache/mutants');
mkdirSync(folder, { recursive: true });
const json = join(folder, 'mutants.json');
// The tests that lie in the same place: those of other folders would find the same faults, more slowly.
const tests = `tests/core/${isFile ? dirname(place) : place}/`;
const include = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
  .map((file) => join('tests', file).replaceAll('\\', '/'))
  .filter((file) => file.startsWith(tests) && file.endsWith('.test.ts'));
const vitestConfig = join(folder, 'vitest.config.mjs');
const setup = join(root, 'tests/support/property-seed.ts');
writeFileSync(
  vitestConfig,
  `export default { test: { include: ${JSON.stringify(include)}, setupFiles: [${JSON.stringify(setup)}], isolate: false, testTimeout: 60000 } };\n`,
);
const config = join(folder, 'stryker.config.json');
writeFileSync(
  config,
  JSON.stringify({
    testRunner: 'vitest',
    vitest: { configFile: vitestConfig, related: false },
    mutate: [mutate],
    // The program is changed where it stands and put back: a copy would lack what tests read beside it.
    inPlace: true,
    concurrency: Number(process.env.MUTANT_RUNNERS ?? 1),
    coverageAnalysis: 'perTest',
    ignoreStatic: true,
    reporters: ['json', 'clear-text'],
    clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
    jsonReporter: { fileName: json },
    tempDirName: join(folder, 'run'),
    disableTypeChecks: false,
    allowEmpty: false,
  }),
);

const require = createRequire(import.meta.url);
const manifest = require.resolve('@stryker-mutator/core/package.json');
const { version, bin } = JSON.parse(readFileSync(manifest, 'utf8'));
execFileSync(process.execPath, [join(dirname(manifest), bin.stryker), 'run', config], {
  cwd: root,
  stdio: 'inherit',
});

const mutants = Object.values(JSON.parse(readFileSync(json, 'utf8')).files).flatMap((file) => file.mutants);
const count = (...statuses) => mutants.filter(({ status }) => statuses.includes(status)).length;
const killed = count('Killed', 'Timeout');
const survived = count('Survived', 'NoCoverage');
const share = ((100 * killed) / (killed + survived)).toFixed(1);
const day = new Date().toISOString().slice(0, 10);
const row = `| \`${place}\` | ${killed + survived} | ${killed} | ${survived} | ${share} % | ${day} | ${version} |`;

const path = join(root, 'docs/mutants.md');
const lines = readFileSync(path, 'utf8').split('\n');
const at = lines.findIndex((line) => line.startsWith(`| \`${place}\` `));
const end = lines.findLastIndex((line) => line.startsWith('| '));
if (at >= 0) lines[at] = row;
else lines.splice(end + 1, 0, row);
writeFileSync(path, lines.join('\n'));
process.stdout.write(`${row}\n`);
