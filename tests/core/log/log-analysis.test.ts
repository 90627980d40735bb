// Small logs worked by hand.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LogResult, StationLog } from '../../../src/core/log/log-result.js';
import { LOG_SIGNALS } from '../../../src/core/model/log-signals.js';
import { logOf, readLog } from '../../support/simulated-log.js';
import { cellOf, station, step } from '../simulate/cells.js';

const stationOf = (result: LogResult, name: string): StationLog =>
  result.stations.find((s) => s.station === name)!;
const read = (rows: readonly string[], header?: string): LogResult => readLog(logOf(rows, header)).result;
const damageOf = (result: LogResult): [string, string, number, number | null][] =>
  result.damage.map((d) => [d.kind, d.what, d.count, d.firstLine]);

describe('a log worked by hand', () => {
  const rows = [
    '0,mill,place',
    '10,mill,placed',
    '10,mill,leave',
    '12,mill,start',
    '14,rack,arrive',
    '62,mill,stop',
    '80,mill,attend',
    '92,mill,run',
    '142,mill,finish',
    '145,mill,ready',
    '150,rack,leave',
    '154,mill,arrive',
    '154,mill,pick',
    '161,mill,picked',
    '161,mill,leave',
    '166,done,arrive',
    '166,done,place',
    '171,done,placed',
    '171,done,leave',
    '176,rack,arrive',
    '176,rack,pick',
    '180,rack,picked',
    '180,rack,leave',
    '184,mill,arrive',
    '184,mill,place',
    '194,mill,placed',
    '197,mill,start',
    '297,mill,finish',
    '299,mill,ready',
    '300,mill,pick',
    '306,mill,picked',
    '306,mill,leave',
    '310,done,arrive',
    '310,done,place',
    '316,done,placed',
  ];
  const result = read(rows);
  const mill = stationOf(result, 'mill');

  test('cycles leave the stop out', () => {
    // 142 - 12 - (92 - 62) = 100, and 297 - 197 = 100.
    expect(mill.times.cycle).toMatchObject({ n: 2, mean: 100, sd: 0, min: 100, max: 100, total: 200 });
    expect(mill.times.stop).toMatchObject({ n: 1, mean: 30 });
    expect(mill.times.response).toMatchObject({ n: 1, mean: 18 });
    expect(mill.times.repair).toMatchObject({ n: 1, mean: 12 });
    expect(mill.stopRate).toMatchObject({ stops: 1, processingH: 200 / 3600, mtbfH: 200 / 3600 });
  });

  test('waits for the robot begin when it may enter', () => {
    expect(mill.times.waitRobot).toMatchObject({ n: 2, total: 154 - 145 + (300 - 299) });
    expect(mill.times.ready).toMatchObject({ n: 2, total: 5 });
    expect(mill.times.close).toMatchObject({ n: 2, total: 5 });
    expect(mill.times.interval).toMatchObject({ n: 1, mean: 155 });
  });

  test('the robot’s time adds up', () => {
    expect(result.coveredH * 3600).toBeCloseTo(316, 9);
    expect(result.robot).toMatchObject({
      handlingS: 10 + 7 + 5 + 4 + 10 + 6 + 6,
      heldS: 0,
      travelEmptyS: 4 + 4 + 5,
      travelLoadedS: 5 + 4 + 4,
    });
    expect(result.robot!.waitS).toBeCloseTo(316 - 48 - 26, 9);
    const loaded = result.robot!.ways.filter((w) => w.loaded).map((w) => `${w.from} ${w.to} ${w.times.mean}`);
    expect(loaded).toEqual(['mill done 4.5', 'rack mill 4']);
  });

  test('parts are counted where they go in and never out', () => {
    expect(result.parts).toEqual({ total: 2 });
    expect(result.partsPerH.total).toBeCloseTo((2 * 3600) / 316, 9);
    expect(damageOf(result)).toEqual([]);
  });

  test('the shares of a station add up to the covered time', () => {
    const shares = Object.values(mill.shares!);
    expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(316, 9);
    expect(mill.shares).toMatchObject({
      processingS: 200,
      stoppedS: 30,
      waitRobotS: 10,
      handlingS: 10 + 10 + 7 + 6 + 10,
    });
  });
});

describe('missing edges', () => {
  const cycles = (gone: (k: number, signal: string) => boolean): string[] =>
    Array.from({ length: 5 }, (_, k) =>
      [
        [0, 'place'],
        [8, 'placed'],
        [10, 'start'],
        [70, 'finish'],
        [72, 'ready'],
        [80, 'pick'],
        [86, 'picked'],
      ]
        .filter(([, signal]) => !gone(k, signal as string))
        .map(([t, signal]) => `${k * 100 + (t as number)},mill,${signal}`),
    ).flat();

  test.each(['place', 'placed', 'start', 'finish', 'ready', 'pick', 'picked'])(
    'one missing `%s` is counted once, and spoils only the times that need it',
    (signal) => {
      const result = read(cycles((k, s) => k === 2 && s === signal));
      expect(damageOf(result).map(([kind, what, count]) => [kind, what, count])).toEqual([
        ['missing', `${signal} at mill`, 1],
      ]);
      const { times } = stationOf(result, 'mill');
      expect(times.cycle!.n).toBe(signal === 'start' || signal === 'finish' ? 4 : 5);
      expect(times.cycle!.sd).toBe(0);
      expect(times.load!.n).toBe(signal === 'place' || signal === 'placed' ? 4 : 5);
      expect(times.unload!.n).toBe(signal === 'pick' || signal === 'picked' ? 4 : 5);
      expect(times.waitRobot!.mean).toBe(8);
    },
  );

  test('a signal that a station never logs is not missing', () => {
    const result = read(cycles((_, s) => s !== 'start' && s !== 'finish'));
    expect(damageOf(result)).toEqual([]);
    expect(stationOf(result, 'mill').times).toMatchObject({
      cycle: { n: 5, mean: 60 },
      waitRobot: null,
      load: null,
    });
  });

  test('a run without its stop, and a stop without its run, spoil their cycle only', () => {
    const rows = [
      '0,m,start',
      '20,m,stop',
      '50,m,run',
      '100,m,finish',
      '110,m,start',
      '130,m,run',
      '190,m,finish',
      '200,m,start',
      '220,m,stop',
      '290,m,finish',
      '300,m,start',
      '370,m,finish',
    ];
    const result = read(rows);
    expect(stationOf(result, 'm').times.cycle).toMatchObject({ n: 2, mean: 70 });
    expect(damageOf(result).map(([kind, what, count]) => [kind, what, count])).toEqual([
      ['missing', 'stop at m', 1],
      ['missing', 'run at m', 1],
    ]);
  });

  test('what the begin and the end of the log cut off is not called missing', () => {
    const result = read([
      '5,m,finish',
      '9,m,pick',
      '12,m,picked',
      '20,m,start',
      '60,m,finish',
      '64,m,pick',
      '70,m,picked',
      '80,m,start',
    ]);
    expect(damageOf(result)).toEqual([['cut', 'start at m', 1, 2]]);
    expect(stationOf(result, 'm').times.cycle).toMatchObject({ n: 1, mean: 40 });
  });
});

describe('values and bounces', () => {
  test('a contact that bounces as it opens makes no finish', () => {
    const rows = [
      ...['10,m,start,1', '10.4,m,start,0', '110,m,finish,1', '110.4,m,finish,0'],
      ...['110.415,m,finish,1', '110.43,m,finish,0', '120,m,start,1', '120.4,m,start,0'],
      ...['220,m,finish,1', '220.4,m,finish,0', '220.415,m,finish,1', '220.43,m,finish,0'],
      ...['230,m,start,1', '230.4,m,start,0'],
      // Here it bounces as it closes.
      ...['330,m,finish,1', '330.015,m,finish,0', '330.03,m,finish,1', '330.4,m,finish,0'],
    ];
    const result = read(rows, 'time,station,signal,value');
    expect(stationOf(result, 'm')).toMatchObject({ finishes: 3, times: { interval: { n: 2, mean: 110 } } });
    expect(damageOf(result)).toEqual([
      ['drop', '', 7, 3],
      ['bounce', '', 5, 6],
    ]);
  });

  test('a level counts by its changes, and only when it has stood', () => {
    const header = 'time,station,signal,value';
    const rows = [
      '0,m,start,1',
      '0.5,m,start,0',
      '1,m,stop,0',
      '2,m,stop,0',
      // chatter on the way up, then a real stop of 60 s; chatter on the way down
      '10,m,stop,1',
      '10.02,m,stop,0',
      '10.04,m,stop,1',
      '70.04,m,stop,0',
      '70.06,m,stop,1',
      '70.08,m,stop,0',
      // a pulse too short to mean anything
      '80,m,stop,1',
      '80.05,m,stop,0',
      '100,m,finish,1',
      '100.03,m,finish,0',
      '100.06,m,finish,1',
      '100.2,m,finish,0',
    ];
    const result = read(rows, header);
    const { times } = stationOf(result, 'm');
    expect(times.stop).toMatchObject({ n: 1 });
    expect(times.stop!.mean).toBeCloseTo(60.04, 9);
    expect(times.cycle!.mean).toBeCloseTo(100 - 60.04, 9);
    expect(damageOf(result)).toEqual([
      ['drop', '', 4, 3],
      ['repeat', '', 1, 5],
      ['bounce', '', 7, 6],
    ]);
  });

  test('records that stand twice are used once', () => {
    const result = read(['0,m,start', '0,m,start', '60,m,finish', '60,m,finish']);
    expect(damageOf(result)).toEqual([['duplicate', '', 2, 3]]);
    expect(stationOf(result, 'm').times.cycle).toMatchObject({ n: 1, mean: 60 });
  });

  test('signals at one time are put in the order in which they belong', () => {
    const result = read(
      ['0,m,placed', '0,m,place', '0,m,start', '9,m,finish', '9,m,start'],
      'time,station,signal',
    );
    expect(stationOf(result, 'm').times.load).toMatchObject({ n: 1, mean: 0 });
  });
});

describe('whatever is logged', () => {
  const row = fc.record({
    t: fc.integer({ min: 0, max: 400 }),
    station: fc.constantFrom('a', 'b'),
    signal: fc.constantFrom(...LOG_SIGNALS, 'door'),
    value: fc.constantFrom('', '', '1', '0'),
    part: fc.constantFrom('', 'x', 'y'),
  });
  const finite = (value: unknown): boolean =>
    typeof value === 'number'
      ? Number.isFinite(value)
      : typeof value !== 'object' || value === null || Object.values(value).every(finite);

  test('every record is used or told of, and no figure is other than finite', () => {
    const cell = cellOf({
      stations: [station('a', 'machine'), { ...station('b', 'bench'), capacityParts: 3 }],
      routes: [{ part: 'x', steps: [step(1, ['a']), step(2, ['b'])] }],
    });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 120 }), fc.boolean(), (rows, known) => {
        const lines = rows.map((r) => `${r.t},${r.station},${r.signal},${r.value},${r.part}`);
        const text = logOf([...lines, '401,a,start,,x'], 'time,station,signal,value,part');
        const { result } = readLog(text, known ? cell : null, { windowS: 3, gapS: 60 });
        const told = ['duplicate', 'bounce', 'repeat', 'drop', 'stray'];
        const left = result.damage.filter((d) => told.includes(d.kind)).reduce((sum, d) => sum + d.count, 0);
        expect(result.used + left).toBe(result.records);
        expect(finite(result)).toBe(true);
        for (const { shares } of result.stations)
          if (shares !== null) expect(Math.min(...Object.values(shares))).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 300 },
    );
  });
});

describe('what the cell says', () => {
  const cell = cellOf({
    stations: [
      station('in', 'infeed'),
      { ...station('press', 'machine'), capacityParts: 2, readyS: 4 },
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [step(1, ['in']), step(2, ['press'], { cycleS: 50, partsPerCycle: 2 }), step(3, ['out'])],
      },
    ],
  });

  test('a fixture of two has one cycle for two parts, and waits once', () => {
    const rows = [
      '0,press,place',
      '5,press,placed',
      '10,press,place',
      '15,press,placed',
      '15,press,start',
      '65,press,finish',
      '75,press,pick',
      '80,press,picked',
      '90,press,pick',
      '95,press,picked',
      '100,out,place',
      '104,out,placed',
    ];
    const { result } = readLog(logOf(rows), cell);
    const press = stationOf(result, 'press');
    expect(press.times.cycle).toMatchObject({ n: 1, mean: 50 });
    expect(press.finishes).toBe(2);
    // ready_s of 4 s is no waiting: 75 - 65 - 4.
    expect(press.times.waitRobot).toMatchObject({ n: 1, mean: 6 });
    expect(result.parts).toEqual({ total: 1 });
    expect(result.partsCountedBy).toBe('placed');
    expect(damageOf(result)).toEqual([]);
  });

  test('two parts in a station that holds two go in and out in turn', () => {
    const bench = cellOf({
      ...cell,
      stations: [{ ...station('wash', 'bench'), capacityParts: 2 }],
      routes: [{ part: 'cap', steps: [step(1, ['wash'], { cycleS: 30 })] }],
    });
    const { result } = readLog(
      logOf(
        [
          '0,wash,start',
          '10,wash,start',
          '30,wash,finish',
          '40,wash,finish',
          '40.05,wash,start',
          '40.07,wash,start',
          '70,wash,finish',
          '70.02,wash,finish',
        ],
        'time,station,signal',
      ),
      bench,
    );
    // The second start within 100 ms of another is a bounce; two finishes may fall together.
    expect(stationOf(result, 'wash').times.cycle).toMatchObject({ n: 3 });
    expect(result.damage.map((d) => d.kind)).toContain('bounce');
  });
});
