// Cells and models that tests and benchmarks share: a module of tests/support, compiled on the fly.
import { mkdirSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** @param name file of tests/support without its ending */
export async function loadSupport(name) {
  const folder = `${root}/node_modules/.cache/roundsman-bench`;
  mkdirSync(folder, { recursive: true });
  const outfile = `${folder}/${name}.mjs`;
  await build({
    entryPoints: [`${root}/tests/support/${name}.ts`],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    logLevel: 'warning',
  });
  return import(pathToFileURL(outfile).href);
}
