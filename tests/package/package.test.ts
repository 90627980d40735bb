// What is packed, what the files say of themselves, and that the README is true.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { root } from '../cli/run-in.js';
import { deepTest } from '../support/size.js';

interface Packed {
  readonly files: readonly { readonly path: string; readonly mode: number }[];
}

describe('the package', () => {
  let paths: string[];
  let packed: Packed;

  beforeAll(() => {
    expect(existsSync(join(root, 'dist/cli/main.js')), 'build first: npm run build').toBe(true);
    const args = ['pack', '--dry-run', '--json', '--ignore-scripts'];
    const { stdout } = spawnSync('npm', args, { cwd: root, encoding: 'utf8' });
    packed = (JSON.parse(stdout) as Packed[])[0];
    paths = packed.files.map((file) => file.path);
  });

  test.each([
    'dist/cli/main.js',
    'dist/index.js',
    'dist/index.d.ts',
    'dist/page/walk-moves.js',
    'dist/page/cell.html',
    'data/starter/stations.csv',
    'data/demo/routes.csv',
    'docs/tables.md',
    'docs/report.png',
    'README.md',
    'CHANGELOG.md',
    'LICENSE',
  ])('holds %s', (path) => {
    expect(paths).toContain(path);
  });

  test('holds no sources, tests or settings', () => {
    expect(
      paths.filter(
        (path) => !/^(dist|data|docs)\/|^(README|CHANGELOG)\.md$|^LICENSE$|^package\.json$/.test(path),
      ),
    ).toEqual([]);
  });

  test('its command may be executed', () => {
    expect(packed.files.find((file) => file.path === 'dist/cli/main.js')!.mode & 0o111).not.toBe(0);
    expect(readFileSync(join(root, 'dist/cli/main.js'), 'utf8')).toMatch(/^#!\/usr\/bin\/env node\n/);
  });

  test('every version is pinned', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies }))
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
  });
});

deepTest('README.md and docs/ are up to date: shown outputs, tables, items and codes', () => {
  const { status, stderr } = spawnSync(process.execPath, ['scripts/readme.mjs', '--check'], {
    cwd: root,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  expect(status).toBe(0);
});

test('README.md, DEVELOPERS.md and docs/ name only scripts, files and pages that are there', () => {
  const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    scripts: Record<string, string>;
  };
  const pages = readdirSync(join(root, 'docs')).filter((name) => name.endsWith('.md'));
  for (const file of ['README.md', 'DEVELOPERS.md', ...pages.map((name) => `docs/${name}`)]) {
    const text = readFileSync(join(root, file), 'utf8');
    for (const [, path] of text.matchAll(/\]\((?!https?:)([^)#]+)/g))
      expect(existsSync(join(root, dirname(file), path!)), `${file} links to ${path}`).toBe(true);
    for (const [, name] of text.matchAll(/npm run ([\w:-]+)/g)) expect(scripts, file).toHaveProperty(name);
    for (const [, path] of text.matchAll(/`((?:src|tests|scripts|data|docs|bench|reports)\/[\w./-]*\w)`/g))
      expect(existsSync(join(root, path)), `${file} names ${path}`).toBe(true);
  }
});

test('every demo cell says that it is invented', () => {
  for (const name of readdirSync(join(root, 'data')).filter((name) => name !== 'starter'))
    expect(readFileSync(join(root, 'data', name, 'stations.csv'), 'utf8'), name).toMatch(
      /^# Invented shop\./,
    );
});

test('reports hold no time of day and no path of a machine', () => {
  for (const name of readdirSync(join(root, 'reports'))) {
    const text = readFileSync(join(root, 'reports', name), 'utf8');
    expect(text, name).not.toMatch(/\b20\d\d-\d\d-\d\d\b|\/(tmp|home|root|work)\//);
    expect(text.length, name).toBeLessThan(name === 'report.html' ? 1_500_000 : 200_000);
  }
});
