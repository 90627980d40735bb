// Ways that lack a time, and ways round that are quicker than the direct one, on a few stations with times in the head.
import { describe, expect, it } from 'vitest';
import type { Cell, Station, TravelRow } from '../../src/core/model/cell.js';
import { complaintList } from '../../src/tables/complaint-list.js';
import { checkTravel } from '../../src/tables/travel-rules.js';
import { emptyCell, station, step } from '../support/line-cell.js';

interface Given {
  readonly travel?: readonly TravelRow[];
  readonly robot?: Partial<Cell['robot']>;
  readonly positions?: Partial<Record<string, Partial<Station>>>;
}

/** What is said where one part visits the stations one after another. */
function said(names: readonly string[], { travel = [], robot, positions }: Given) {
  const list = complaintList();
  checkTravel(
    list,
    {
      stations: names.map((name) => station(name, 'buffer', positions?.[name])),
      routes: [{ part: 'cap', steps: names.map((name, i) => step(i + 1, name)) }],
      robot: { ...emptyCell.robot, ...robot },
      travel,
    },
    'travel.csv',
  );
  return list.sorted();
}

const row = (from: string, to: string, emptyS: number, loadedS = emptyS): TravelRow => ({
  from,
  to,
  emptyS,
  loadedS,
});
const DETOUR = 'a detour is quicker than the direct trip: ';

describe('a way round', () => {
  const four = ['a', 'b', 'c', 'd'];
  /** Over b it is 2 + 3 = 5 s from a to c, and to d; c and d are 6 s apart, as over b. */
  const ways = [row('a', 'b', 2), row('b', 'c', 3), row('b', 'd', 3), row('c', 'd', 6)];

  it('is a warning that names the pairs with the largest saving first, three at most', () => {
    const [warning, ...more] = said(four, { travel: [...ways, row('a', 'c', 10), row('a', 'd', 20)] });
    expect(more).toEqual([]);
    expect(warning).toMatchObject({
      code: 'TRA04',
      severity: 'warning',
      file: 'travel.csv',
      text:
        `${DETOUR}\`a\` to \`d\` takes 20 s, over \`b\` 5 s; \`d\` to \`a\` takes 20 s, over \`b\` 5 s; ` +
        '`a` to `c` takes 10 s, over `b` 5 s (4 pairs in total)',
    });
    // Three are not counted.
    const three = [...ways, row('a', 'c', 10), row('c', 'a', 5), row('a', 'd', 20)];
    expect(said(four, { travel: three })[0]!.text).toMatch(/over `b` 5 s$/);
  });

  it('counts for the loaded robot as for the empty one, each pair once', () => {
    const loaded = [row('a', 'b', 2), row('b', 'c', 3), row('a', 'c', 5, 9)];
    const pairs = '`a` to `c` takes 9 s, over `b` 5 s; `c` to `a` takes 9 s, over `b` 5 s';
    expect(said(['a', 'b', 'c'], { travel: loaded }).map(({ text }) => text)).toEqual([DETOUR + pairs]);
    const both = [row('a', 'b', 2), row('b', 'c', 3), row('a', 'c', 9, 6)];
    expect(said(['a', 'b', 'c'], { travel: both }).map(({ text }) => text)).toEqual([DETOUR + pairs]);
  });

  it('of several the quickest is named, also over the first and the last station', () => {
    const travel = [row('a', 'b', 9), row('a', 'c', 4), row('a', 'd', 2), row('b', 'c', 4), row('b', 'd', 2)];
    expect(said(four, { travel: [...travel, row('c', 'd', 2)] })[0]!.text).toBe(
      `${DETOUR}\`a\` to \`b\` takes 9 s, over \`d\` 4 s; \`b\` to \`a\` takes 9 s, over \`d\` 4 s`,
    );
    const first = [row('a', 'b', 1), row('a', 'c', 2), row('b', 'c', 4)];
    expect(said(['a', 'b', 'c'], { travel: first })[0]!.text).toBe(
      `${DETOUR}\`b\` to \`c\` takes 4 s, over \`a\` 3 s; \`c\` to \`b\` takes 4 s, over \`a\` 3 s`,
    );
  });

  it('as long as the direct one is no warning', () => {
    expect(said(['a', 'b', 'c'], { travel: [row('a', 'b', 2), row('b', 'c', 3), row('a', 'c', 5)] })).toEqual(
      [],
    );
    expect(said(four, { robot: { travelS: 3 } })).toEqual([]);
  });
});

describe('a way without a time', () => {
  it('is named with its pair, and beyond twenty they are counted', () => {
    const two = said(['a', 'b'], {});
    expect(two).toMatchObject([{ code: 'TRA03', severity: 'error', file: 'travel.csv', line: null }]);
    expect(two[0]!.text).toBe('no robot time is given between `a` and `b`');
    // One of three is given; what lacks is named once for both directions.
    expect(said(['a', 'b', 'c'], { travel: [row('b', 'a', 2)] })[0]!.text).toBe(
      'no robot time is given for 2 pairs of stations: `a` and `c`; `b` and `c`',
    );
    const names = Array.from({ length: 7 }, (_, i) => `s${i}`);
    const { text } = said(names, {})[0]!;
    expect(text).toMatch(/^no robot time is given for 21 pairs of stations: `s0` and `s1`; /);
    expect(text).toMatch(/; `s4` and `s6`; and 1 more$/);
  });

  it('is fixed by a speed where there are positions, else by a row', () => {
    const positions = { a: { xM: 0, yM: 0 } };
    const byPosition =
      'Positions are given: add `speed_m_s` to robot.csv, or a row to travel.csv, or `travel_s` to robot.csv.';
    const byRow =
      'Add a row to travel.csv, positions with `speed_m_s`, or `travel_s` in robot.csv for all other pairs.';
    expect(said(['a', 'b'], { positions })[0]!.help).toBe(byPosition);
    expect(said(['a', 'b'], {})[0]!.help).toBe(byRow);
    expect(said(['a', 'b'], { positions, robot: { speedMS: 1 } })[0]!.help).toBe(byRow);
  });
});
