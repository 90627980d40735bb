// Each of the layer rules fails on a file that breaks it; `npm run layers` holds the program against them.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../cli/run-in.js';

const bin = join(root, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');

interface Cruise {
  readonly summary: {
    readonly violations: readonly { readonly rule: { readonly name: string }; readonly from: string }[];
  };
}

function cruise(cwd: string): Cruise {
  const args = [bin, '--config', 'tests/layers.cjs', '--output-type', 'json', 'src'];
  const { stdout, stderr } = spawnSync(process.execPath, args, { cwd, encoding: 'utf8', maxBuffer: 1 << 28 });
  expect(stderr).toBe('');
  return JSON.parse(stdout) as Cruise;
}

/** Rule, the file that breaks it, and what that file holds. */
const BREAKS: readonly (readonly [rule: string, file: string, text: string])[] = [
  ['no-circles', 'src/core/a/one.ts', "import { two } from './two.js';\nexport const one = () => two;\n"],
  [
    'pure-layers-know-no-node',
    'src/core/a/disk.ts',
    "import { readFileSync } from 'node:fs';\nexport const r = readFileSync;\n",
  ],
  [
    'pure-layers-know-no-node',
    'src/tables/disk.ts',
    "import { readFileSync } from 'fs';\nexport const r = readFileSync;\n",
  ],
  [
    'pure-layers-know-no-node',
    'src/render/disk.ts',
    "import { join } from 'node:path';\nexport const r = join;\n",
  ],
  [
    'pure-layers-know-no-node',
    'src/workbook/disk.ts',
    "import { join } from 'node:path';\nexport const r = join;\n",
  ],
  [
    'pure-layers-know-no-node',
    'src/browser/disk.ts',
    "import { join } from 'node:path';\nexport const r = join;\n",
  ],
  [
    'browser-on-pure-layers',
    'src/browser/up.ts',
    "import { f } from '../files/f.js';\nexport const u = f;\n",
  ],
  ['nobody-needs-browser', 'src/cli/b.ts', "import { p } from '../browser/p.js';\nexport const u = p;\n"],
  ['workbook-on-tables', 'src/workbook/up.ts', "import { r } from '../render/r.js';\nexport const u = r;\n"],
  ['core-stands-alone', 'src/core/a/up.ts', "import { t } from '../../tables/t.js';\nexport const u = t;\n"],
  ['rooms-in-order', 'src/core/floor/up.ts', "import { l } from '../log/l.js';\nexport const u = l;\n"],
  [
    'schedule-in-order',
    'src/core/schedule/plan/up.ts',
    "import { s } from '../search/s.js';\nexport const u = s;\n",
  ],
  ['core-packages', 'src/core/a/colour.ts', "import pc from 'picocolors';\nexport const c = pc;\n"],
  ['model-is-lowest', 'src/core/model/up.ts', "import { two } from '../a/two.js';\nexport const u = two;\n"],
  [
    'statistics-is-lowest',
    'src/core/statistics/up.ts',
    "import type { m } from '../model/m.js';\nexport type U = typeof m;\n",
  ],
  ['solver-on-core', 'src/solver/up.ts', "import { f } from '../files/f.js';\nexport const u = f;\n"],
  ['tables-on-core', 'src/tables/up.ts', "import { r } from '../render/r.js';\nexport const u = r;\n"],
  ['render-on-results', 'src/render/up.ts', "import { f } from '../files/f.js';\nexport const u = f;\n"],
  [
    'render-computes-nothing',
    'src/render/work.ts',
    "import { two } from '../core/a/two.js';\nexport const u = two;\n",
  ],
  ['files-below-cli', 'src/files/up.ts', "import { r } from '../render/r.js';\nexport const u = r;\n"],
  ['workers-on-core', 'src/workers/up.ts', "import { r } from '../render/r.js';\nexport const u = r;\n"],
  ['nobody-needs-cli', 'src/workers/top.ts', "import { m } from '../cli/m.js';\nexport const u = m;\n"],
  ['page-stands-alone', 'src/page/load.ts', "import { r } from '../render/r.js';\nexport const u = r;\n"],
  ['nobody-needs-page', 'src/cli/run.ts', "import { u } from '../page/load.js';\nexport const v = u;\n"],
  ['library-is-pure', 'src/index.ts', "export { f } from './files/f.js';\n"],
];

const SOUND: Readonly<Record<string, string>> = {
  'src/core/log/l.ts': 'export const l = 1;\n',
  'src/core/schedule/search/s.ts': 'export const s = 1;\n',
  'src/core/a/two.ts':
    "import type { one } from './one.js';\nexport const two = 2;\nexport type T = typeof one;\n",
  'src/core/model/m.ts': 'export const m = 1;\n',
  'src/tables/t.ts': 'export const t = 1;\n',
  'src/render/r.ts': "import type { T } from '../core/a/two.js';\nexport const r = 1;\nexport type R = T;\n",
  'src/files/f.ts': 'export const f = 1;\n',
  'src/browser/p.ts': "import { r } from '../render/r.js';\nexport const p = r;\n",
  'src/cli/m.ts': "import { f } from '../files/f.js';\nexport const m = f;\n",
};

describe('each rule fails where it is broken', () => {
  const folder = mkdtempSync(join(tmpdir(), 'roundsman-layers-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  let found: Cruise;

  beforeAll(() => {
    for (const file of ['tests/layers.cjs', 'tsconfig.json', 'package.json'])
      cpSync(join(root, file), join(folder, file), { recursive: true });
    symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
    const files: [string, string][] = [
      ...Object.entries(SOUND),
      ...BREAKS.map(([, file, text]): [string, string] => [file, text]),
    ];
    for (const [file, text] of files) {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), text);
    }
    found = cruise(folder);
  });

  test.each(BREAKS)('%s by %s', (rule, file) => {
    const rules = found.summary.violations.filter((v) => v.from === file).map((v) => v.rule.name);
    expect(rules).toContain(rule);
  });

  test('every rule of the set is among them', () => {
    const config = readFileSync(join(root, 'tests/layers.cjs'), 'utf8');
    const names = [...config.matchAll(/^ {6}name: '([\w-]+)'/gm)].map((match) => match[1]);
    expect(new Set(BREAKS.map(([rule]) => rule))).toEqual(new Set(names));
  });

  test('the files that break nothing are left alone', () => {
    const blamed = new Set(
      found.summary.violations.filter((v) => v.rule.name !== 'no-circles').map((v) => v.from),
    );
    for (const file of Object.keys(SOUND)) expect(blamed, file).not.toContain(file);
  });
});
