// Builds dist/ from src/ afresh: removes the old output, compiles every file for those who use the library, then puts
// the command and its threads into a few bundles, which start in half the time of some hundred files, and the page of a
// cell into one. Types are `npm run typecheck`'s to judge: checking them here too would take longer than all the rest.
import { execFile } from 'node:child_process';
import { chmodSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { browserPage } from './browser-page.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const compiler = createRequire(import.meta.url).resolve('typescript/bin/tsc');

rmSync(`${root}/dist`, { recursive: true, force: true });
const run = promisify(execFile);
const compiled = Promise.all(
  ['tsconfig.json', 'src/page/tsconfig.json'].map((project) =>
    run(process.execPath, [compiler, '--noCheck', '-p', `${root}/${project}`], { cwd: root }),
  ),
).catch(({ stdout, message }) => {
  throw new Error(stdout || message);
});

const workers = readdirSync(`${root}/src/workers`).filter((file) => file.endsWith('-worker.ts'));
const { dependencies } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8'));
const bundled = build({
  absWorkingDir: root,
  entryPoints: ['src/cli/main.ts', ...workers.map((file) => `src/workers/${file}`)],
  outbase: 'src',
  outdir: 'dist',
  // As deep as the files they stand for, which look for the package two folders up.
  chunkNames: 'bundles/[name]-[hash]',
  bundle: true,
  splitting: true,
  external: Object.keys(dependencies),
  format: 'esm',
  platform: 'node',
  target: 'node20',
  legalComments: 'none',
  logLevel: 'warning',
  // The compiler writes a file of the same name; the bundle takes its place.
  write: false,
});
const style = compiled.then(() => import('../dist/render/document/document-style.js'));
const page = browserPage(
  root,
  style.then(({ DOCUMENT_STYLE }) => DOCUMENT_STYLE),
);

const [{ outputFiles }] = await Promise.all([bundled, compiled]);
for (const { path, contents } of outputFiles) {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, contents);
}
chmodSync(`${root}/dist/cli/main.js`, 0o755);
writeFileSync(`${root}/dist/page/cell.html`, await page);
