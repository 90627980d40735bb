// The stored results that golden texts are drawn from: each has what the program gives today where it is worked out as
// fixture-recipes.ts says. `npm run fixtures` writes them anew; the golden texts that then differ want a reader.
import { writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { deepTest } from '../support/size.js';
import { recipes } from './fixture-recipes.js';
import { type StoredResults, stored, storedPath } from './stored-results.js';

const names = Object.keys(recipes) as (keyof StoredResults)[];

/** Twelve digits of a number, and the speed of no machine. */
function written(result: unknown): string {
  return JSON.stringify(result, (key, value) => {
    if (key === 'seconds') return 0;
    if (key === 'eventsPerSecond') return 1_000_000;
    return typeof value === 'number' ? Number(value.toPrecision(12)) : value;
  });
}

const fieldsOf = (result: object): string[] => Object.keys(result).sort();

if (process.env.RENEW_FIXTURES === 'yes')
  test.each(names)('%s is written', async (name) => {
    writeFileSync(storedPath(name), `${written(await recipes[name]())}\n`);
  });
else
  describe('stored results', () => {
    deepTest.each(names)('%s has the fields of a result of today', async (name) => {
      const today = JSON.parse(written(await recipes[name]()));
      expect(fieldsOf(stored(name))).toEqual(fieldsOf(today));
    });
  });
