// What the commands say of the small cell, worked out once for all test files of both workers: the program keeps no state,
// so a second run of the same words would say the same. Nobody writes into these folders.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inject } from 'vitest';
import { type Json, jsonOf } from '../relations/json-of.js';
import { quickShop } from './quick-shop.js';

const shared = inject('sharedFolder');
const cwd = mkdtempSync(join(shared, 'worker-'));
export const sharedShop = join(shared, 'shop');
const own = quickShop(join(cwd, 'shop'));
try {
  renameSync(own, sharedShop);
} catch {
  // The other worker has put it there.
}

interface Answer {
  readonly result: Json;
  /** Where the files are that the command wrote. */
  readonly folder: string;
}
const answers = new Map<string, Promise<Answer>>();

/** Of a command that writes nothing: `shopJson('size', '--max', '4')`. */
export async function shopJson(command: string, ...options: readonly string[]): Promise<Json> {
  return (await once([command, sharedShop, ...options])).result;
}

/** The report with its files in `folder`, on one thread. */
export async function shopReport(): Promise<{ readonly result: Json; readonly folder: string }> {
  const { result, folder } = await once(['report', sharedShop, '--out', 'report', '--workers', '1']);
  return { result, folder: join(folder, 'report') };
}

function once(words: readonly string[]): Promise<Answer> {
  const key = words.join('\n');
  const answer = answers.get(key) ?? ofEither(words, key);
  answers.set(key, answer);
  return answer;
}

/** The worker that asks first works it out; the other one waits for it. */
async function ofEither(words: readonly string[], key: string): Promise<Answer> {
  const place = join(shared, createHash('sha256').update(key).digest('hex'));
  const file = `${place}.json`;
  const isFirst = claimed(place);
  if (isFirst) {
    const result = await jsonOf(cwd, ...words).catch((error: unknown) => ({ failed: String(error) }));
    writeFileSync(`${place}.part`, JSON.stringify({ result, folder: cwd }));
    renameSync(`${place}.part`, file);
  }
  while (!existsSync(file)) await new Promise((again) => setTimeout(again, 20));
  const answer = JSON.parse(readFileSync(file, 'utf8')) as Answer;
  if (answer.result.failed !== undefined) throw new Error(answer.result.failed);
  return answer;
}

function claimed(place: string): boolean {
  try {
    mkdirSync(place);
    return true;
  } catch {
    return false;
  }
}
