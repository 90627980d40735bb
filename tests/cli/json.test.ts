// `--json`: one object on standard output and nothing else, with the envelope and the fields that others rely on.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { sharedShop as shop, shopJson } from '../support/shop-answers.js';
import { deepTest, isDeep } from '../support/size.js';
import { data, run } from './run-in.js';

const FIELDS: Readonly<Record<string, readonly string[]>> = {
  check: ['status', 'complaints', 'counts'],
  schedule: [
    'periodS',
    'partsPerPeriod',
    'partsPerH',
    'proven',
    'boundS',
    'gapPct',
    'rateBoundPerH',
    'robot',
    'stations',
    'events',
    'bottleneck',
    'improvements',
    'searched',
  ],
  size: ['rows', 'recommended', 'closedForm'],
  shifts: ['patterns', 'best'],
  costcase: [
    'alternatives',
    'increment',
    'breakEvenChangeovers',
    'byStation',
    'selection',
    'tornado',
    'risk',
    'recommendation',
  ],
  io: ['stations'],
};

describe.each(Object.entries(FIELDS))('%s', (command, fields) => {
  test('prints one object with the envelope and its fields', async () => {
    const result = (await shopJson(command, ...(command === 'size' ? ['--no-simulation'] : []))) as Record<
      string,
      unknown
    >;
    expect(Object.keys(result).slice(0, 7)).toEqual([
      'program',
      'version',
      'command',
      'inputs',
      'assumptions',
      'warnings',
      'cautions',
    ]);
    expect(result).toMatchObject({ program: 'roundsman', command });
    for (const field of fields) expect(result, field).toHaveProperty(field);
    expect(JSON.stringify(result)).not.toContain('null,null');
  });
});

test('the inputs are named with the SHA-256 of their bytes', async () => {
  const { out } = await run(['check', data('two-hands'), '--json']);
  const sha = (file: string): string =>
    createHash('sha256')
      .update(readFileSync(`${data('two-hands')}/${file}`))
      .digest('hex');
  expect(JSON.parse(out).inputs).toEqual(
    ['robot.csv', 'routes.csv', 'stations.csv'].map((file) => ({ file, sha256: sha(file) })),
  );
});

test('schedule: times add up, events lie within the period, and the figures agree with each other', async () => {
  const { out } = await run(['schedule', data('wash-line'), '--json']);
  const s = JSON.parse(out);
  const { handlingS, travelEmptyS, travelLoadedS, heldS, waitS } = s.robot;
  expect(handlingS + travelEmptyS + travelLoadedS + heldS + waitS).toBeCloseTo(s.periodS, 6);
  expect(s.partsPerH.total).toBeCloseTo((3600 * s.partsPerPeriod.sleeve) / s.periodS, 9);
  // The lathe alone: pick 3 + way 2.8 + place 7 + door and cycle 100 + pick 6 + way 2.2 + brush 14 + way 1.9 + place 4 + way 2.8.
  expect(s.periodS).toBeCloseTo(143.7, 9);
  for (const event of s.events) {
    expect(event.startS).toBeGreaterThanOrEqual(0);
    expect(event.endS).toBeLessThanOrEqual(s.periodS + 1e-9);
  }
});

test('the figures of the hands option reach the result, and it says so', async () => {
  const one = JSON.parse((await run(['schedule', data('two-hands'), '--hands', '1', '--json'])).out);
  const two = JSON.parse((await run(['schedule', data('two-hands'), '--json'])).out);
  expect(one.periodS).toBeGreaterThan(two.periodS);
  expect(one.assumptions.join(' ')).toContain(
    'Single gripper, as the command line says; robot.csv has hands 2',
  );
  expect(two.assumptions.join(' ')).not.toContain('command line');
});

test('costcase: the count of changeovers of the command line is the count that is planned', async () => {
  const { out } = await run(['costcase', shop, '--changeovers', '100', '--trials', '50', '--json']);
  const result = JSON.parse(out);
  expect(result.plannedChangeovers).toBeCloseTo(100, 9);
  expect(result.risk.trials).toBe(50);
});

test('a wrong input is told as data too', async () => {
  const said = await run(['schedule', '/no/such/folder', '--json']);
  expect(said.exit).toBe(1);
  expect(JSON.parse(said.out)).toMatchObject({
    command: 'schedule',
    status: 'input wrong',
    complaints: [{ code: 'FIL01', severity: 'error' }],
  });
  expect(said.err).toContain('There is no folder `/no/such/folder`.');
});

test('shifts: takt of a demanded part is its open time over the demand, and says whether it is met', async () => {
  const args = ['shifts', shop, '--set', 'parts.cap.per_shift=150'];
  const { patterns, performance } = JSON.parse((await run([...args, '--json'])).out);
  expect(performance).toHaveLength(patterns.length);
  for (const [i, { takt }] of performance.entries()) {
    const { hoursPerWeek, shiftsPerWeek, partsPerWeek } = patterns[i];
    expect(takt[0].taktS).toBeCloseTo((3600 * hoursPerWeek) / (150 * shiftsPerWeek), 9);
    expect(takt[0].isMet).toBe(partsPerWeek.cap >= 150 * shiftsPerWeek);
  }
  if (isDeep) expect((await run(args)).out).toMatch(/^Takt$/m);
});

deepTest(
  'shifts: simulated patterns give differences with intervals, the same on any number of threads',
  async () => {
    const args = ['shifts', shop, '--simulate', '--replications', '4', '--json', '--workers'];
    const [one, two] = [
      JSON.parse((await run([...args, '1'])).out),
      JSON.parse((await run([...args, '2'])).out),
    ];
    expect(two.simulated).toEqual(one.simulated);
    expect(one.differences).toHaveLength(1);
    const { mean, ciLow, ciHigh } = one.differences[0].partsPerWeek;
    expect(ciLow).toBeLessThan(mean);
    expect(mean).toBeLessThan(ciHigh);
  },
);
