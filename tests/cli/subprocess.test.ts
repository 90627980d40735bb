// The built program as a shell starts it: a few runs only, the rest is tested in-process.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { data, root } from './run-in.js';

const main = join(root, 'dist/cli/main.js');
const start = (args: readonly string[]) =>
  spawnSync(process.execPath, [main, ...args], { encoding: 'utf8', env: { PATH: process.env.PATH } });

beforeAll(() => {
  expect(existsSync(main), 'build first: npm run build').toBe(true);
});

test('--version', () => {
  expect(start(['--version'])).toMatchObject({ status: 0, stdout: '0.1.0\n', stderr: '' });
});

test('a schedule comes out whole in a pipe', () => {
  const { status, stdout, stderr } = start(['schedule', data('wash-line'), '--json']);
  expect(stderr).toBe('');
  expect(status).toBe(0);
  expect(JSON.parse(stdout).periodS).toBeCloseTo(143.7, 9);
});

test('a report on threads says nothing but its answer', () => {
  const out = mkdtempSync(join(tmpdir(), 'report-'));
  const { status, stdout, stderr } = start(['report', data('two-hands'), '--out', out, '--workers', '2']);
  rmSync(out, { recursive: true });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  expect(stdout).toMatch(/^With its best round the robot makes 35\.5 parts an hour/);
});

test('a wrong use ends with 2', () => {
  expect(start(['sched', 'x']).status).toBe(2);
});

test('a reader that goes away early is no fault', () => {
  const command = `"${process.execPath}" "${main}" schedule "${data('wash-line')}" | head -n 1`;
  const { stdout, stderr } = spawnSync('sh', ['-c', command], { encoding: 'utf8' });
  expect(stdout).toMatch(/^One round of the robot takes 143\.7 s/);
  expect(stderr).toBe('');
});
