// The circle: a cell with known parameters is simulated, its log is read, and the parameters are found again. Seeds are
// fixed and intervals are at 99.9% and wider, so the outcome is not a toss: it is the same in every run.
import { beforeAll, describe, expect, test } from 'vitest';
import type { LogResult, StationLog } from '../../../src/core/log/log-result.js';
import type { MeasureSummary } from '../../../src/core/log/measure.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { nextUniform, seedStream } from '../../../src/core/statistics/random-streams.js';
import { logOf, readLog, simulatedLog } from '../../support/simulated-log.js';
import { atSize } from '../../support/size.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const CONFIDENCE = 0.9999;

/** Two machines with scatter and stops, a bench that holds two, a slow operator. */
const cell: Cell = cellOf({
  stations: [
    station('rack', 'infeed'),
    { ...station('lathe', 'machine'), readyS: 3, closeS: 2, mtbfH: 1.5, mttrMin: 4 },
    { ...station('mill', 'machine'), readyS: 2, closeS: 1 },
    { ...station('wash', 'bench'), capacityParts: 2 },
    station('done', 'outfeed'),
  ],
  routes: [
    {
      part: 'flange',
      steps: [
        step(1, ['rack'], { unloadS: 5 }),
        step(2, ['lathe'], { cycleS: 95, loadS: 9, unloadS: 7 }),
        step(3, ['mill'], { cycleS: 80, loadS: 8, unloadS: 6 }),
        step(4, ['wash'], { cycleS: 60, loadS: 4, unloadS: 4 }),
        step(5, ['done'], { loadS: 5 }),
      ],
    },
  ],
  robot: { ...ROBOT, travelS: 4 },
  variation: [
    { station: 'lathe', element: 'cycle', distribution: 'gamma', parameters: [95, 60] },
    { station: 'mill', element: 'load', distribution: 'lognormal', parameters: [8, 1.5] },
    { station: 'lathe', element: 'repair', distribution: 'gamma', parameters: [4, 3] },
    { station: '*', element: 'response', distribution: 'exponential', parameters: [2] },
  ],
});

const HOURS = atSize(320, 400);
let text = '';
let read: LogResult;

beforeAll(() => {
  text = simulatedLog(cell, { hours: HOURS, program: 'first', seed: 11 });
  read = readLog(text, cell, { confidence: CONFIDENCE }).result;
});

const at = (result: LogResult, name: string): StationLog => result.stations.find((s) => s.station === name)!;

function holds(measured: MeasureSummary | null, truth: number): void {
  expect(measured).not.toBeNull();
  expect(measured!.ciLow!).toBeLessThanOrEqual(truth + 1e-3);
  expect(measured!.ciHigh!).toBeGreaterThanOrEqual(truth - 1e-3);
  // An interval that holds everything would prove nothing.
  expect(measured!.ciHigh! - measured!.ciLow!).toBeLessThan(truth + 2e-3);
}

/** Every parameter of the cell, found in a result. */
function findsParameters(result: LogResult): void {
  const [rack, lathe, mill, wash, done] = ['rack', 'lathe', 'mill', 'wash', 'done'].map((n) => at(result, n));
  holds(lathe!.times.cycle, 95);
  holds(mill!.times.cycle, 80);
  holds(wash!.times.cycle, 60);
  holds(rack!.times.unload, 5);
  holds(lathe!.times.load, 9);
  holds(lathe!.times.unload, 7);
  holds(mill!.times.load, 8);
  holds(mill!.times.unload, 6);
  holds(wash!.times.load, 4);
  holds(done!.times.load, 5);
  holds(lathe!.times.ready, 3);
  holds(lathe!.times.close, 2);
  holds(mill!.times.ready, 2);
  holds(lathe!.times.repair, 240);
  const rate = lathe!.stopRate!;
  expect(rate.ciLow).toBeLessThan(1.5);
  expect(rate.ciHigh!).toBeGreaterThan(1.5);
  expect(rate.ciHigh! / rate.ciLow).toBeLessThan(2.5);
  for (const way of result.robot!.ways) if (way.times.n > 1) holds(way.times, 4);
}

describe('the log of a simulated cell', () => {
  test('gives back its parameters', () => {
    findsParameters(read);
    // Coefficient of variation of a gamma distribution with shape 60.
    const { sd, mean } = at(read, 'lathe').times.cycle!;
    expect(sd! / mean).toBeCloseTo(1 / Math.sqrt(60), 2);
    // The operator is asked for by one machine only, so nobody waits for him but for his response.
    holds(at(read, 'lathe').times.response, 120);
  });

  test('counts every second of the robot and every part', () => {
    const placed = text.match(/,done,placed,/g)!.length;
    expect(read.parts).toEqual({ flange: placed, total: placed });
    const robot = read.robot!;
    const coveredS = read.coveredH * 3600;
    expect(robot.handlingS + robot.travelEmptyS! + robot.travelLoadedS! + robot.waitS).toBeCloseTo(
      coveredS,
      3,
    );
    expect(read.records).toBe(text.split('\n').length - 2);
    expect(read.used).toBe(read.records);
    expect(read.damage.filter((d) => d.kind !== 'gap' && d.kind !== 'cut')).toEqual([]);
  });

  test('says the same without the cell, but for what it cannot know', () => {
    const bare = readLog(text, null, { confidence: CONFIDENCE }).result;
    holds(at(bare, 'lathe').times.cycle, 95);
    holds(at(bare, 'mill').times.cycle, 80);
    expect(bare.parts.total).toBe(read.parts.total);
  });
});

describe('a log damaged on purpose', () => {
  /** Rows twice, bounces, single edges taken out, and neighbours swapped. */
  test('gives the parameters all the same, and every damage is counted', () => {
    const stream = new Int32Array(4);
    seedStream(stream, 0, 7, 'damage', 0);
    const random = (): number => nextUniform(stream, 0);
    const rows = text.trimEnd().split('\n').slice(1);
    const counts = { duplicate: 0, bounce: 0, missing: 0 };
    const damaged: string[] = [];
    for (const [i, row] of rows.entries()) {
      const [time, name, signal] = row.split(',') as [string, string, string];
      const inside = i > 1000 && i < rows.length - 1000;
      if (inside && signal === 'finish' && name === 'mill' && random() < 0.01) {
        counts.missing++;
        continue;
      }
      damaged.push(row);
      if (random() < 0.02) {
        damaged.push(row);
        counts.duplicate++;
      }
      if (inside && signal === 'start' && random() < 0.05) {
        const later = (Number(time) + 0.02).toFixed(3);
        damaged.push([later, ...row.split(',').slice(1)].join(','));
        counts.bounce++;
      }
    }
    const time = (row: string): number => Number(row.split(',')[0]);
    for (let i = 1001; i < damaged.length - 1001; i += 2 + Math.floor(random() * 20)) {
      const [a, b] = [time(damaged[i - 1]!), time(damaged[i]!)];
      if (b > a && b - a < 4) [damaged[i - 1], damaged[i]] = [damaged[i]!, damaged[i - 1]!];
    }
    let [late, top] = [0, 0];
    for (const row of damaged) {
      if (time(row) < top) late++;
      top = Math.max(top, time(row));
    }
    const result = readLog(logOf(damaged, 'time,station,signal,part'), cell, {
      confidence: CONFIDENCE,
    }).result;
    const counted = (kind: string): number =>
      result.damage.filter((d) => d.kind === kind).reduce((sum, d) => sum + d.count, 0);
    expect(counted('duplicate')).toBe(counts.duplicate);
    expect(counted('bounce')).toBe(counts.bounce);
    expect(counted('out of order')).toBe(late);
    expect(result.damage.filter((d) => d.kind === 'missing').map((d) => [d.what, d.count])).toEqual([
      ['finish at mill', counts.missing],
    ]);
    expect(Math.min(counts.duplicate, counts.bounce, counts.missing, late)).toBeGreaterThan(20);
    findsParameters(result);
    expect(at(result, 'mill').times.cycle!.n).toBe(at(read, 'mill').times.cycle!.n - counts.missing);
  });

  test('a hole in the log and a clock set back are told, and no time across them is used', () => {
    const rows = text.trimEnd().split('\n').slice(1);
    const time = (row: string): number => Number(row.split(',')[0]);
    const moved = (row: string, byS: number): string =>
      [(time(row) + byS).toFixed(3), ...row.split(',').slice(1)].join(',');
    const kept = rows.filter((row) => !(time(row) > 200_000 && time(row) < 220_000));
    const third = kept.findIndex((row) => time(row) > 500_000);
    const broken = [...kept.slice(0, third), ...kept.slice(third).map((row) => moved(row, -7200))];
    const result = readLog(logOf(broken, 'time,station,signal,part'), cell, {
      confidence: CONFIDENCE,
    }).result;
    expect(result.gaps.map((g) => g.kind)).toEqual(['gap', 'clock back']);
    expect(result.gaps[0]!.seconds).toBeCloseTo(20_000, -3);
    expect(result.gaps[1]!.seconds).toBeCloseTo(7200, -3);
    expect(result.damage.filter((d) => d.kind === 'missing')).toEqual([]);
    expect(result.used).toBe(broken.length);
    findsParameters(result);
  });
});
