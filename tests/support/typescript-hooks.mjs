/**
 * Lets Node read the TypeScript of src/ and tests/ as it stands, a file at a time: `./a.js` is `./a.ts` or `./a.tsx`
 * where there is one. So the program under test runs as it does from dist/, in modules of Node itself. Vite's own
 * module runner looks up every import at each use, which makes the inner loops of the floor half as slow again.
 */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { transform } from 'esbuild';

export async function resolve(specifier, context, next) {
  const from = context.parentURL;
  if (/^\.{1,2}\/.*\.js$/.test(specifier) && from !== undefined && !from.includes('/node_modules/'))
    for (const end of ['ts', 'tsx']) {
      const url = new URL(specifier.replace(/js$/, end), from);
      if (existsSync(url)) return { url: url.href, format: 'module', shortCircuit: true };
    }
  return next(specifier, context);
}

export async function load(url, context, next) {
  const { pathname, protocol } = new URL(url);
  const loader = /\.(tsx?)$/.exec(pathname)?.[1];
  if (protocol !== 'file:' || loader === undefined || pathname.includes('/node_modules/'))
    return next(url, context);
  const path = fileURLToPath(new URL(pathname, 'file://'));
  const { code } = await transform(readFileSync(path, 'utf8'), {
    ...{ loader, format: 'esm', target: 'node20.10', jsx: 'automatic', jsxImportSource: 'preact' },
    ...{ sourcefile: path, sourcemap: 'inline', sourcesContent: false },
  });
  return { format: 'module', source: code, shortCircuit: true };
}
