// A command's result as `--json` prints it, for tests that hold one command against another.
import { expect } from 'vitest';
import { runIn } from '../cli/run-in.js';

// biome-ignore lint/suspicious/noExplicitAny: a JSON result
export type Json = any;

export async function jsonOf(cwd: string, ...words: readonly string[]): Promise<Json> {
  const { exit, out, err } = await runIn(cwd, [...words, '--json']);
  expect({ exit, err }, words.join(' ')).toEqual({ exit: 0, err: '' });
  return JSON.parse(out);
}
