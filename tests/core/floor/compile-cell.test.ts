/** A cell as flat tables: each table by hand. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { HELD, INFEED, OUTFEED, WORK } from '../../../src/core/floor/compiled-cell.js';
import type { Cell, Part, Route, Variation } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const NEVER = Number.POSITIVE_INFINITY;
const part = (name: string, more: Partial<Part> = {}): Part => ({
  ...{ part: name, contribution: null, perShift: null, ratio: null, yieldPct: 100 },
  ...more,
});

/** A cap over two mills, a brush in the hand and one time in three a gauge; a rod over a fixture for three; a tag straight out. */
function shop(more: Partial<Cell> = {}): Cell {
  return cellOf({
    stations: [
      station('rack', 'infeed', { capacityParts: 40 }),
      station('mill_1', 'machine', { closeS: 1, readyS: 2, mtbfH: 2, mttrMin: 3 }),
      station('mill_2', 'machine', { capacityParts: 2 }),
      station('brush', 'held'),
      station('gauge', 'bench'),
      station('lathe', 'machine'),
      station('store', 'buffer', { capacityParts: null }),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(10, ['rack'], { unloadS: 2 }),
          step(20, ['mill_1', 'mill_2'], { cycleS: 30, loadS: 4, unloadS: 5, maxWaitS: 60 }),
          step(30, ['brush'], { cycleS: 7, loadS: 1, unloadS: 1 }),
          step(40, ['gauge'], { cycleS: 9, everyParts: 3 }),
          step(50, ['good'], { loadS: 6 }),
        ],
      },
      {
        part: 'rod',
        steps: [
          step(1, ['rack'], { unloadS: 3 }),
          step(2, ['lathe'], { cycleS: 50, loadS: 4, unloadS: 5, partsPerCycle: 3 }),
          step(3, ['good']),
        ],
      },
      { part: 'tag', steps: [step(1, ['rack'], { unloadS: 1 }), step(2, ['good'])] },
    ],
    robot: { ...ROBOT, travelS: 3 },
    parts: [part('cap', { yieldPct: 90 }), part('rod', { unattended: false })],
    ...more,
  });
}

describe('stations', () => {
  const cell = () => compileCell(shop());

  it('have their kind, their times, and infinity where nothing limits them', () => {
    const { stationNames, stationCount, stationKind, closeS, readyS, mtbfS, rackParts } = cell();
    expect([stationNames[3], stationCount]).toEqual(['brush', 8]);
    expect([...stationKind]).toEqual([INFEED, WORK, WORK, HELD, WORK, WORK, WORK, OUTFEED]);
    expect([closeS[1], readyS[1], mtbfS[1], mtbfS[2]]).toEqual([1, 2, 7200, NEVER]);
    expect([rackParts[0], rackParts[7]]).toEqual([40, NEVER]);
  });

  it('have a slot for each part that they can hold, a fixture for each of its parts, a store without limit 256', () => {
    const { firstSlot, slotStation, slotCount } = cell();
    expect([...firstSlot]).toEqual([0, 0, 1, 3, 3, 4, 7, 263, 263]);
    expect(slotCount).toBe(263);
    expect([...slotStation.subarray(0, 8)]).toEqual([1, 2, 2, 4, 5, 5, 5, 6]);
  });
});

describe('operations', () => {
  const cell = () => compileCell(shop());

  it('are the steps of all routes in turn', () => {
    const c = cell();
    expect([c.opCount, c.routeCount, [...c.routeFirstOp], c.routeNames]).toEqual([
      10,
      3,
      [0, 5, 8],
      ['cap', 'rod', 'tag'],
    ]);
    expect([...c.opRoute]).toEqual([0, 0, 0, 0, 0, 1, 1, 1, 2, 2]);
    expect([...c.opStep]).toEqual([10, 20, 30, 40, 50, 1, 2, 3, 1, 2]);
    expect([...c.opKind]).toEqual([
      INFEED,
      WORK,
      HELD,
      WORK,
      OUTFEED,
      INFEED,
      WORK,
      OUTFEED,
      INFEED,
      OUTFEED,
    ]);
    expect([...c.opCycleS]).toEqual([0, 30, 7, 9, 0, 0, 50, 0, 0, 0]);
    expect([...c.opLoadS]).toEqual([0, 4, 1, 0, 6, 0, 4, 0, 0, 0]);
    expect([...c.opUnloadS]).toEqual([2, 5, 1, 0, 0, 3, 5, 0, 1, 0]);
    expect([...c.opMaxWaitS].map((w) => (w === NEVER ? null : w))).toEqual([
      null,
      60,
      null,
      null,
      null,
      null,
      null,
      null,
      null,
      null,
    ]);
    expect([...c.opBatch]).toEqual([1, 1, 1, 1, 1, 1, 3, 1, 1, 1]);
    expect([...c.opEvery]).toEqual([1, 1, 1, 3, 1, 1, 1, 1, 1, 1]);
  });

  it('have their stations as choices', () => {
    const c = cell();
    expect([...c.firstChoice]).toEqual([0, 1, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect([...c.opStations]).toEqual([0, 1, 2, 3, 4, 7, 0, 5, 7, 0, 7]);
    expect([...c.choiceOp]).toEqual([0, 1, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });

  it('go plainly on where no step in the hand and no step of some parts comes next', () => {
    // After the mill comes the brush, after the brush the gauge of one in three.
    expect([...cell().opPlainNext]).toEqual([1, -1, -1, 4, -1, 6, 7, -1, 9, -1]);
  });

  it('are fed by routes; a station with one of them knows its infeed', () => {
    const c = cell();
    const rawOf = (s: number) => [...c.rawRoutes.subarray(c.firstRaw[s], c.firstRaw[s + 1])];
    expect([0, 1, 2, 3, 4, 5, 6, 7].map(rawOf)).toEqual([[], [0], [0], [], [], [1], [], []]);
    // A fixture for three takes only parts of one step, which has to be looked at.
    expect([...c.soleFeed]).toEqual([-1, 0, 0, -1, -1, -1, -1, -1]);
    expect([...c.directRoutes]).toEqual([2]);
    expect(c.hasRing).toBe(false);
  });

  it('part names that are no station are refused, and so is a part that takes no time', () => {
    const lost = shop().routes.map((r) => ({
      ...r,
      steps: r.steps.map((s) => ({ ...s, stations: s.stations.map((n) => (n === 'lathe' ? 'late' : n)) })),
    }));
    expect(() => compileCell(shop({ routes: lost }))).toThrow(
      'part rod names the station late, which is not listed',
    );
    const quick: Route = { part: 'tag', steps: [step(1, ['rack']), step(2, ['good'])] };
    const still = { ...ROBOT, travelS: 0 };
    expect(() => compileCell(shop({ routes: [quick], robot: still }))).toThrow(
      'part tag takes no time at all',
    );
    expect(() => compileCell(shop({ routes: [quick] }))).not.toThrow();
    const own = { ...quick, steps: [step(1, ['rack'], { unloadS: 1 }), step(2, ['good'])] };
    expect(() => compileCell(shop({ routes: [own], robot: still }))).not.toThrow();
    // What only one part in three takes does not count.
    const rare = {
      ...quick,
      steps: [step(1, ['rack']), step(2, ['gauge'], { cycleS: 9, everyParts: 3 }), step(3, ['good'])],
    };
    expect(() => compileCell(shop({ routes: [rare], robot: still }))).toThrow('takes no time at all');
  });
});

describe('feeds', () => {
  const feedOf = (route: Route, more: Partial<Cell> = {}) => [
    ...compileCell(shop({ routes: [route], ...more })).soleFeed,
  ];
  const plain: Route = {
    part: 'cap',
    steps: [step(1, ['rack'], { unloadS: 1 }), step(2, ['lathe'], { cycleS: 9 }), step(3, ['good'])],
  };

  it('are sole where one infeed feeds by one way that never changes', () => {
    expect(feedOf(plain)[5]).toBe(0);
    const brushed = {
      ...plain,
      steps: [
        plain.steps[0],
        step(2, ['brush'], { cycleS: 1 }),
        { ...plain.steps[1], step: 3 },
        { ...plain.steps[2], step: 4 },
      ],
    };
    expect(feedOf(brushed)[5]).toBe(-1);
    const two = shop().stations.map((s) => (s.name === 'store' ? station('store', 'infeed') : s));
    const either = { ...plain, steps: [step(1, ['rack', 'store'], { unloadS: 1 }), ...plain.steps.slice(1)] };
    expect(feedOf(either, { stations: two })[5]).toBe(-1);
    // A mix does not matter where there is one part alone.
    expect(feedOf(plain, { parts: [part('cap', { ratio: 2 })] })[5]).toBe(0);
  });

  it('are not where another part comes too, or a mix is asked for', () => {
    const rod = { ...plain, part: 'rod' };
    expect(compileCell(shop({ routes: [plain, rod] })).soleFeed[5]).toBe(-1);
    const apart: Route = {
      part: 'rod',
      steps: [step(1, ['rack'], { unloadS: 1 }), step(2, ['gauge'], { cycleS: 9 }), step(3, ['good'])],
    };
    expect([4, 5].map((s) => compileCell(shop({ routes: [plain, apart] })).soleFeed[s])).toEqual([3, 0]);
    const parts = [part('cap', { ratio: 2 }), part('rod', { ratio: 1 })];
    expect([4, 5].map((s) => compileCell(shop({ routes: [plain, apart], parts })).soleFeed[s])).toEqual([
      -1, -1,
    ]);
  });

  it('where only one part in three stops at a station, the ones after it can come straight as well', () => {
    const rare: Route = {
      part: 'cap',
      steps: [
        step(1, ['rack'], { unloadS: 1 }),
        step(2, ['gauge'], { cycleS: 9, everyParts: 3 }),
        step(3, ['good']),
      ],
    };
    const c = compileCell(shop({ routes: [rare] }));
    expect([[...c.directRoutes], c.firstRaw[5] - c.firstRaw[4]]).toEqual([[0], 1]);
    expect(c.soleFeed[4]).toBe(-1);
  });
});

describe('parts', () => {
  it('have a good share, and hours', () => {
    const c = compileCell(shop());
    expect([[...c.goodShare], [...c.attendedOnly]]).toEqual([
      [0.9, 1, 1],
      [0, 1, 0],
    ]);
  });

  it('have a mix where all have a ratio, or all are asked for', () => {
    const mixOf = (...parts: readonly Part[]) => {
      const c = compileCell(shop({ parts }));
      return [[...c.routeMix], [...c.routeLead]];
    };
    // Without one only the fixture's load counts.
    expect(mixOf(part('cap', { ratio: 2 }), part('rod', { ratio: 1 }))).toEqual([
      [0, 0, 0],
      [1, 3, 1],
    ]);
    expect(mixOf(part('cap', { ratio: 10 }), part('rod', { ratio: 5 }), part('tag', { ratio: 30 }))).toEqual([
      [2, 1, 6],
      [2, 3, 6],
    ]);
    expect(
      mixOf(part('cap', { perWeek: 400 }), part('rod', { perWeek: 100 }), part('tag', { perWeek: 200 }))[0],
    ).toEqual([4, 1, 2]);
    expect(
      mixOf(
        part('cap', { perWeek: 400, ratio: 1 }),
        part('rod', { perWeek: 100, ratio: 1 }),
        part('tag', { perWeek: 200, ratio: 1 }),
      )[0],
    ).toEqual([1, 1, 1]);
    expect(mixOf(part('cap', { perWeek: 400 }), part('rod', { perWeek: 100 }))[0]).toEqual([0, 0, 0]);
  });
});

describe('a ring', () => {
  const ring = (...ways: readonly (readonly string[])[]) =>
    compileCell(
      shop({
        routes: ways.map((way, r) => ({
          part: `p${r}`,
          steps: [
            step(0, ['rack'], { unloadS: 1 }),
            ...way.map((at, i) => step(i + 1, at.split(' or '), { cycleS: 9 })),
            step(9, ['good']),
          ],
        })),
        parts: [],
      }),
    ).hasRing;

  it('is where parts can come back over other stations', () => {
    expect(ring(['mill_1', 'mill_2'])).toBe(false);
    expect(ring(['mill_1', 'mill_2', 'mill_1'])).toBe(true);
    expect(ring(['mill_1', 'mill_1'])).toBe(true);
    expect(ring(['mill_1', 'mill_2'], ['mill_2', 'mill_1'])).toBe(true);
    expect(ring(['mill_1', 'mill_2'], ['mill_2', 'lathe'], ['lathe', 'mill_1'])).toBe(true);
    expect(ring(['mill_1', 'mill_2'], ['mill_1', 'lathe'], ['lathe', 'mill_2'])).toBe(false);
    expect(ring(['mill_1 or mill_2', 'lathe'], ['lathe', 'mill_2'])).toBe(true);
    // Over the brush in the hand.
    expect(ring(['mill_1', 'brush', 'mill_2'], ['mill_2', 'mill_1'])).toBe(true);
  });
});

describe('ways', () => {
  const at = (c: ReturnType<typeof compileCell>, from: number, to: number) => {
    const k = from * c.stationCount + to;
    return [c.travelEmptyS[k], c.travelLoadedS[k]];
  };

  it('are those of the table, at full speed', () => {
    const c = compileCell(
      shop({
        robot: { ...ROBOT, travelS: 3, attendedSpeedPct: 50 },
        travel: [{ from: 'rack', to: 'mill_1', emptyS: 5, loadedS: 8 }],
      }),
    );
    expect([at(c, 0, 1), at(c, 1, 0), at(c, 2, 7)]).toEqual([
      [5, 8],
      [5, 8],
      [3, 3],
    ]);
    expect(at(c, 4, 4)).toEqual([0, 0]);
    expect([c.hands, c.indexS]).toEqual([1, 0]);
  });

  it('at one place are a turn between two hands, at any speed', () => {
    const c = compileCell(
      shop({ robot: { ...ROBOT, hands: 2, indexS: 2, travelS: 3, attendedSpeedPct: 50 } }),
    );
    expect([at(c, 4, 4), c.hands, c.indexS]).toEqual([[2, 2], 2, 2]);
    expect(at(compileCell(shop({ robot: { ...ROBOT, hands: 1, indexS: 2, travelS: 3 } })), 4, 4)).toEqual([
      0, 0,
    ]);
  });

  it('must be known between stations that are used, and only there', () => {
    const robot = { ...ROBOT, travelS: null };
    const routes = [shop().routes[2]];
    const travel = [{ from: 'rack', to: 'good', emptyS: 4, loadedS: 4 }];
    const c = compileCell(shop({ robot, routes, travel }));
    expect([at(c, 0, 7)[0], at(c, 0, 1)[0]]).toEqual([4, Number.NaN]);
    expect(() => compileCell(shop({ robot, routes }))).toThrow('no travel time is given from rack to good');
  });
});

describe('stops', () => {
  it('are in seconds, with what nothing sets at infinity, and know when somebody comes', () => {
    const stop = { minutes: 4, operator: true, everyH: null, everyParts: null };
    const c = compileCell(
      shop({
        stops: [
          { ...stop, station: 'lathe', name: 'tool', everyParts: 50, earlyParts: 6 },
          { ...stop, station: 'mill_1', name: 'clean', everyH: 2, earlyParts: 6 },
          { ...stop, station: 'mill_2', name: 'flush', everyParts: 20, operator: false, earlyParts: 6 },
          { ...stop, station: 'mill_2', name: 'wipe', everyParts: 30 },
        ],
        variation: [
          { station: 'lathe', element: 'response', distribution: 'triangular', parameters: [1, 2, 6] },
        ],
      }),
    );
    expect(c.stops).toEqual([
      {
        station: 5,
        name: 'tool',
        everyParts: 50,
        everyS: NEVER,
        seconds: 240,
        needsOperator: true,
        earlyParts: 6,
        responseS: 180,
      },
      {
        station: 1,
        name: 'clean',
        everyParts: NEVER,
        everyS: 7200,
        seconds: 240,
        needsOperator: true,
        earlyParts: 0,
        responseS: 0,
      },
      {
        station: 2,
        name: 'flush',
        everyParts: 20,
        everyS: NEVER,
        seconds: 240,
        needsOperator: false,
        earlyParts: 0,
        responseS: 0,
      },
      {
        station: 2,
        name: 'wipe',
        everyParts: 30,
        everyS: NEVER,
        seconds: 240,
        needsOperator: true,
        earlyParts: 0,
        responseS: 0,
      },
    ]);
    expect(() =>
      compileCell(shop({ stops: [{ ...stop, station: 'late', name: 'tool', everyParts: 50 }] })),
    ).toThrow('the stop tool names the station late, which is not listed');
  });
});

describe('variation', () => {
  const row = (at: string, element: Variation['element'], ...parameters: readonly number[]): Variation => ({
    ...{ station: at, element, distribution: 'triangular', parameters },
  });
  const withRows = (...variation: readonly Variation[]) => compileCell(shop({ variation }));

  it('of one station stands before that of all, and gives the time itself', () => {
    // Means of 4 and 6.
    const c = withRows(row('*', 'cycle', 2, 4, 6), row('lathe', 'cycle', 4, 6, 8));
    // One for each station, in their order; the lathe's own is the sixth.
    expect([...c.cycleSampler]).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect([c.samplers[5].stream, c.samplers[5].distribution.mean, c.samplers[1].distribution.mean]).toEqual([
      'cycle lathe',
      6,
      4,
    ]);
    const scale = (s: number, op: number) => c.cycleScale[s * c.opCount + op];
    // The cap's 30 s at a mill about a mean of 4; the lathe's draw is the time.
    expect([scale(1, 1), scale(2, 1), scale(5, 6)]).toEqual([7.5, 7.5, 1]);
    expect([...c.loadSampler]).toEqual(new Array(8).fill(-1));
    expect(scale(5, 1)).toBe(1);
  });

  it('of a station with several times scatters each about its own', () => {
    const c = withRows(
      row('good', 'load', 2, 4, 6),
      row('mill_1', 'load', 2, 4, 6),
      row('rack', 'unload', 2, 4, 6),
    );
    const scale = (s: number, op: number) => c.loadScale[s * c.opCount + op];
    // At the outfeed 6 s for a cap, none for others; at the mill 4 s for all.
    expect([scale(7, 4), scale(7, 7), scale(1, 1)]).toEqual([1.5, 0, 1]);
    expect([0, 5, 8].map((op) => c.unloadScale[op])).toEqual([0.5, 0.75, 0.25]);
    expect([[...c.loadSampler], [...c.unloadSampler]]).toEqual([
      [-1, 0, -1, -1, -1, -1, -1, 1],
      [2, -1, -1, -1, -1, -1, -1, -1],
    ]);
  });

  it('about a mean of nothing is nothing', () => {
    const c = compileCell(
      shop({ variation: [{ station: '*', element: 'load', distribution: 'constant', parameters: [0] }] }),
    );
    expect(c.loadScale[1 * c.opCount + 1]).toBe(0);
  });

  it('of repairs is exponential about the mean of the station, unless said', () => {
    const bare = withRows();
    expect([...bare.repairSampler]).toEqual([-1, 0, -1, -1, -1, -1, -1, -1]);
    expect(bare.samplers).toHaveLength(1);
    expect([
      bare.samplers[0].stream,
      bare.samplers[0].distribution.name,
      bare.samplers[0].distribution.mean,
    ]).toEqual(['repair mill_1', 'exponential', 3]);
    expect([...bare.repairScale]).toEqual(new Array(8).fill(1));
    // A row for all about its own mean of 4: three minutes at the mill, what is drawn elsewhere.
    const all = withRows(row('*', 'repair', 2, 4, 6));
    expect([all.repairScale[1], all.repairScale[2]]).toEqual([0.75, 1]);
    const own = withRows(row('mill_1', 'repair', 2, 4, 6));
    expect([own.repairScale[1], own.samplers[own.repairSampler[1]].distribution.mean]).toEqual([1, 4]);
    const none = compileCell(
      shop({ stations: shop().stations.map((s) => (s.name === 'mill_1' ? { ...s, mttrMin: 0 } : s)) }),
    );
    expect(none.samplers[0].distribution.name).toBe('constant');
  });

  it('has a stream for each element, for random stops by station and for yield by part', () => {
    const c = withRows(row('mill_2', 'travel', 2, 4, 6), row('mill_2', 'response', 2, 4, 6));
    expect(c.streamNames).toEqual([
      'travel mill_2',
      'repair mill_1',
      'response mill_2',
      ...c.stationNames.map((name) => `random stops ${name}`),
      ...['yield cap', 'yield rod', 'yield tag'],
    ]);
    expect([c.travelSampler[2], c.responseSampler[2], c.travelSampler[1]]).toEqual([0, 2, -1]);
    // Rows alike share one distribution.
    expect(c.samplers[0].distribution).toBe(c.samplers[2].distribution);
  });
});
