// What the commands say of the small cell, worked out once for all test files that a worker runs: the program keeps no
// state, so a second run of the same words would say the same. Nobody writes into these folders.
import { mkdtempSync } from 'node:fs';
import { join } from 'node:path';
import { inject } from 'vitest';
import { type Json, jsonOf } from '../relations/json-of.js';
import { quickShop } from './quick-shop.js';

const cwd = mkdtempSync(join(inject('sharedFolder'), 'worker-'));
export const sharedShop = quickShop(join(cwd, 'shop'));
const answers = new Map<string, Promise<Json>>();

/** Of a command that writes nothing: `shopJson('size', '--max', '4')`. */
export function shopJson(command: string, ...options: readonly string[]): Promise<Json> {
  return once([command, sharedShop, ...options]);
}

/** The report with its files in `folder`, on one thread. */
export async function shopReport(): Promise<{ readonly result: Json; readonly folder: string }> {
  return {
    result: await once(['report', sharedShop, '--out', 'report', '--workers', '1']),
    folder: join(cwd, 'report'),
  };
}

function once(words: readonly string[]): Promise<Json> {
  const key = words.join('\n');
  const answer = answers.get(key) ?? jsonOf(cwd, ...words);
  answers.set(key, answer);
  return answer;
}
