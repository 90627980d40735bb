// The built program as a shell starts it: a few runs only, the rest is tested in-process.
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { atSize, deepTest } from '../support/size.js';
import { data, freshFolder, root } from './run-in.js';

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

deepTest('a report on threads says nothing but its answer', () => {
  const out = mkdtempSync(join(tmpdir(), 'report-'));
  const { status, stdout, stderr } = start(['report', data('two-hands'), '--out', out, '--workers', '2']);
  rmSync(out, { recursive: true });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  expect(stdout).toMatch(/^The cell makes 35\.5 parts an hour/);
});

test('a wrong use ends with 2', () => {
  expect(start(['sched', 'x']).status).toBe(2);
});

test('a reader that goes away early is no fault', () => {
  const command = `"${process.execPath}" "${main}" schedule "${data('wash-line')}" | head -n 1`;
  const { stdout, stderr } = spawnSync('sh', ['-c', command], { encoding: 'utf8' });
  expect(stdout).toMatch(/^Output 25\.1 parts\/h\. Robot cycle 143\.7? ?s?/);
  expect(stderr).toBe('');
});

const shell = (command: string) =>
  spawnSync('bash', ['-c', command.replaceAll('roundsman', `"${process.execPath}" "${main}"`)], {
    encoding: 'utf8',
  });

test('a reader that goes away changes no exit status', () => {
  const { stdout, stderr } = shell('roundsman check nowhere --json | true; echo "$PIPESTATUS"');
  expect(stdout).toBe('1\n');
  expect(stderr).toContain('FIL01');
});

test.runIf(existsSync('/dev/full'))('a full device is told in a sentence', () => {
  const { status, stderr } = shell(`roundsman check "${data('wash-line')}" > /dev/full`);
  expect({ status, stderr }).toEqual({
    status: 1,
    stderr: 'The answer cannot be printed: the disk is full.\n',
  });
});

describe('a part of the program is missing', () => {
  const packages = freshFolder();
  const without = (name: string, args: readonly string[]) => {
    const copy = join(packages, name);
    mkdirSync(join(copy, 'node_modules'), { recursive: true });
    for (const file of ['dist', 'data', 'package.json'])
      cpSync(join(root, file), join(copy, file), { recursive: true });
    for (const of of readdirSync(join(root, 'node_modules')))
      if (of !== name) symlinkSync(join(root, 'node_modules', of), join(copy, 'node_modules', of));
    return spawnSync(process.execPath, [join(copy, 'dist/cli/main.js'), ...args], {
      encoding: 'utf8',
      cwd: packages,
    });
  };

  const parts: [string, string[]][] = [
    ['commander', ['--version']],
    ['highs', ['jobs', data('starter')]],
  ];
  test.each(atSize(parts.slice(0, 1), parts))('%s', (name, args) => {
    const { status, stderr } = without(name, args);
    expect(stderr).toMatch(new RegExp(`^A part of the program is missing.*${name}`));
    expect(stderr).not.toMatch(/^ +at /m);
    expect(status).toBe(1);
  });
});

test('a log that is cut short leaves nothing behind', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'log-'));
  const run = ['--hours', '100000', '--replications', '1', '--dispatch', 'order'];
  const args = ['simulate', data('wash-line'), ...run, '--log', join(folder, 'log.csv')];
  const child = spawn(process.execPath, [main, ...args], { stdio: 'ignore' });
  const ended = new Promise((resolve) => child.on('exit', (_code, signal) => resolve(signal)));
  // As soon as the log has begun, and not only the trial of the folder, it is stopped.
  const begun = (): boolean => readdirSync(folder).some((stage) => existsSync(join(folder, stage, 'new')));
  while (!begun() && child.exitCode === null) await new Promise((resolve) => setTimeout(resolve, 20));
  expect(begun()).toBe(true);
  child.kill('SIGINT');
  expect(await ended).toBe('SIGINT');
  expect(readdirSync(folder)).toEqual([]);
  rmSync(folder, { recursive: true });
});
