// Builds dist/ from src/ afresh: removes the old output, compiles every file for those who use the library, then puts
// the command and its threads into a few bundles, which start in half the time of some hundred files, and the page of a
// cell into one. Types are `npm run typecheck`'s to judge: checking them here too would take longer than all the rest.
import { execFileSync } from 'node:child_process';
import { chmodSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { browserPage } from './browser-page.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const compiler = createRequire(import.meta.url).resolve('typescript/bin/tsc');

rmSync(`${root}/dist`, { recursive: true, force: true });
for (const project of ['tsconfig.json', 'src/page/tsconfig.json'])
  execFileSync(process.execPath, [compiler, '--noCheck', '-p', `${root}/${project}`], {
    stdio: 'inherit',
    cwd: root,
  });

const workers = readdirSync(`${root}/src/workers`).filter((file) => file.endsWith('-worker.ts'));
const { dependencies } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8'));
await build({
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
});
chmodSync(`${root}/dist/cli/main.js`, 0o755);

const { DOCUMENT_STYLE } = await import('../dist/render/document/document-style.js');
writeFileSync(`${root}/dist/page/cell.html`, await browserPage(root, DOCUMENT_STYLE));
