// Puts the page of a cell together: style, script and the worker's script in one HTML file that needs nothing beside it.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import { build } from 'esbuild';

/** Drawn in a terminal alone; nothing of them must be left in the page. */
const TERMINAL_ONLY = /^(cli-table3|picocolors)$/;

/** Packages that draw in a terminal are dropped where nothing of them is used. */
const withoutTerminal = {
  name: 'without-terminal',
  setup({ onResolve, resolve }) {
    onResolve({ filter: TERMINAL_ONLY }, async ({ path, resolveDir, kind, pluginData }) => {
      if (pluginData === 'asked') return undefined;
      return { ...(await resolve(path, { resolveDir, kind, pluginData: 'asked' })), sideEffects: false };
    });
  },
};

async function bundled(root, entry) {
  const { version } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8'));
  const { outputFiles, metafile } = await build({
    absWorkingDir: root,
    entryPoints: [entry],
    bundle: true,
    minify: true,
    write: false,
    metafile: true,
    // A script that is no module: module workers do not start in a page opened from disk.
    format: 'iife',
    platform: 'browser',
    target: 'es2022',
    define: { BUILT_VERSION: JSON.stringify(version) },
    jsx: 'automatic',
    jsxImportSource: 'preact',
    // Asked for by packages of the terminal only, which are dropped.
    external: ['os', 'util'],
    plugins: [withoutTerminal],
    charset: 'utf8',
    legalComments: 'none',
    logLevel: 'warning',
  });
  const [{ text }] = outputFiles;
  const [{ imports, inputs }] = Object.values(metafile.outputs);
  const terminal = Object.keys(inputs).filter(
    (path) => /cli-table3|picocolors|@colors/.test(path) && inputs[path].bytesInOutput > 0,
  );
  if (imports.length > 0 || terminal.length > 0)
    throw new Error(
      `${entry} takes what a page does not have: ${[...imports.map(({ path }) => path), ...terminal].join(', ')}`,
    );
  // In texts and patterns only, where the escape means the same: as code, the bundler never writes it.
  const safe = text.replaceAll('<!--', '\\x3C!--');
  if (/<\/script/i.test(safe)) throw new Error(`the bundle of ${entry} holds an end tag`);
  return safe;
}

/** A third of its size; the page unpacks it when it is asked for. */
function packed(text) {
  return deflateRawSync(text, { level: 9 }).toString('base64');
}

function hash(text) {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}

function tablesOf(folder) {
  const files = readdirSync(folder).filter((file) => file.endsWith('.csv'));
  return Object.fromEntries(files.map((file) => [file, readFileSync(`${folder}/${file}`, 'utf8')]));
}

/** @param style the style of documents, which the page's own follows, there once the rest of dist/ is */
export async function browserPage(root, style) {
  const [first, script, rateEngine, engine] = await Promise.all(
    ['first-worker.ts', 'main.tsx', 'engine/rate-engine.ts', 'engine/engine.ts'].map((file) =>
      bundled(root, `src/browser/${file}`),
    ),
  );
  const css = `${await style}${readFileSync(`${root}/src/browser/page.css`, 'utf8')}`;
  const example = JSON.stringify({ name: 'example', tables: tablesOf(`${root}/data/demo`) }).replaceAll(
    '<',
    '\\u003c',
  );
  const reportScript = readFileSync(`${root}/dist/page/walk-moves.js`, 'utf8').trim();
  if (/<\/script|<!--/i.test(reportScript)) throw new Error('the script of the report would end its element');
  const policy = [
    "default-src 'none'",
    `script-src ${hash(first)} ${hash(script)}`,
    'worker-src blob:',
    `style-src ${hash(css)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>One robot, several machines</title>
<style>${css}</style>
</head>
<body>
<div id="page"><noscript><p>This page works out the cell in the browser, so it needs scripts. Nothing leaves the machine.</p></noscript></div>
<script type="text/plain" id="carried-rate-engine">${rateEngine}</script>
<script>${first}</script>
<script type="application/json" id="carried-cell"></script>
<script type="application/json" id="carried-example">${example}</script>
<script type="text/plain" id="carried-report-script">${reportScript}</script>
<script type="text/plain" id="carried-solver"></script>
<script type="text/plain" id="carried-engine">${packed(engine)}</script>
<script>${script}</script>
</body>
</html>
`;
}
