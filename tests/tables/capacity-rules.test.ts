// How many parts a station holds where the table does not say, and where it holds too few for a step.
import { expect, it } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const ROUTE = 'cap,2,mill_1|mill_2,240,12,10,,,';
const twoParts: Change = ['routes.csv', ROUTE, 'cap,2,mill_1|mill_2,240,12,10,,2,'];

function capacities(...changes: readonly Change[]) {
  const { cell, complaints } = inspectTables(changedTables(changes));
  expect(complaints.filter(({ severity }) => severity === 'error')).toEqual([]);
  return Object.fromEntries(cell!.stations.map((s) => [s.name, s.capacityParts]));
}

it('infeeds and outfeeds are unlimited, other stations hold what a step loads there, at least one part', () => {
  const plain = { rack: null, mill_1: 1, mill_2: 1, gauge: 1, brush: 1, done: null };
  expect(capacities()).toEqual(plain);
  expect(capacities(twoParts)).toEqual({ ...plain, mill_1: 2, mill_2: 2 });
  // A station that no route visits.
  expect(capacities(['stations.csv', 'done,outfeed', 'spare,buffer,3,1,,,,,,\ndone,outfeed'])).toEqual({
    ...plain,
    spare: 1,
  });
});

it('what the table says holds', () => {
  const stations = (from: string, to: string): Change => ['stations.csv', from, to];
  expect(
    capacities(
      stations('mill_1,machine,1,0,,', 'mill_1,machine,1,0,3,'),
      stations('rack,infeed,0,0,,', 'rack,infeed,0,0,40,'),
    ),
  ).toMatchObject({ rack: 40, mill_1: 3, mill_2: 1 });
  // Exactly as many as the step loads.
  expect(capacities(twoParts, stations('mill_1,machine,1,0,,', 'mill_1,machine,1,0,2,'))).toMatchObject({
    mill_1: 2,
  });
});

it('a step that loads more than its station holds is refused', () => {
  const one: Change = ['stations.csv', 'mill_2,machine,2,0,,', 'mill_2,machine,2,0,1,'];
  expect(saidAbout(twoParts, one)).toBe(`routes.csv, line 3, column parts_per_cycle  error ROU07
  Found 2 parts per cycle, but \`mill_2\` holds 1.
    3 │ cap,2,mill_1|mill_2,240,12,10,,2,
      │                                ~
  Fix: Raise its capacity in stations.csv, or load fewer parts before the machine starts.

1 error in 1 file. No results.
`);
});
