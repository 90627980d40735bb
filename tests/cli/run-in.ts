// Runs the program in this process in a folder of its own, and catches what it says.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';
import type { Io } from '../../src/cli/io.js';
import { runProgram } from '../../src/cli/run-program.js';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const data = (name: string): string => join(root, 'data', name);

export interface Said {
  readonly exit: number;
  readonly out: string;
  readonly err: string;
}

export async function runIn(cwd: string, args: readonly string[], more: Partial<Io> = {}): Promise<Said> {
  let [out, err] = ['', ''];
  const io: Io = {
    stdout: (text) => {
      out += text;
    },
    stderr: (text) => {
      err += text;
    },
    cwd,
    isTTY: false,
    isErrorTTY: false,
    columns: undefined,
    env: {},
    platform: 'linux',
    ...more,
  };
  const exit = await runProgram(args, io);
  return { exit, out, err };
}

export const run = (args: readonly string[], more: Partial<Io> = {}): Promise<Said> =>
  runIn(root, args, more);

/** A fresh folder that is taken away after the tests of the file. */
export function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'roundsman-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
