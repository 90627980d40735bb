/** The reader of tables runs in a browser page as it is: no part of Node is in reach here. */
import { createContext, runInContext } from 'node:vm';
import { build } from 'esbuild';
import { expect, test } from 'vitest';
import { readCell } from '../../src/tables/read-cell.js';
import { soundTables } from './sound-tables.js';

test('a bundle for the browser reads the same cell', async () => {
  const { outputFiles } = await build({
    entryPoints: ['src/tables/read-cell.ts'],
    bundle: true,
    platform: 'browser',
    format: 'iife',
    globalName: 'tables',
    write: false,
  });
  const quoted = { ...soundTables, 'parts.csv': 'part,yield_pct\n"cap","98"\n' };
  const page = createContext({ TextEncoder, input: JSON.stringify(quoted) });
  const script = `${outputFiles[0]?.text}; JSON.stringify(tables.readCell(JSON.parse(input)))`;
  expect(JSON.parse(runInContext(script, page))).toEqual(readCell(quoted));
});
