// Simulation from outside: fields, threads that change nothing, rules, patterns, a cell that locks up, Ctrl-C.
import { spawn } from 'node:child_process';
import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { unlikeShop } from '../support/quick-shop.js';
import { deepTest } from '../support/size.js';
import { data, freshFolder, root, run, runIn } from './run-in.js';

const cwd = freshFolder();
const shop = unlikeShop(join(cwd, 'shop'));
const quick = ['--replications', '2', '--workers', '1'];
const simulate = (cell: string, ...more: string[]) => runIn(cwd, ['simulate', cell, ...quick, ...more]);
const json = async (cell: string, ...more: string[]) =>
  JSON.parse((await simulate(cell, '--json', ...more)).out);
const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('a cell with unlike parts', () => {
  // biome-ignore lint/suspicious/noExplicitAny: a JSON result
  let result: any;
  beforeAll(async () => {
    result = await json(shop, '--explain');
  });

  test('has the fields of a simulation in the common envelope', () => {
    expect(result).toMatchObject({ command: 'simulate', replications: 2, seed: 1, complete: true });
    expect(result).toMatchObject({ pattern: 'day', dispatch: 'order', deadlock: null, horizonH: 40 });
    expect(result.eventsPerSecond).toBeGreaterThan(0);
    const { mean, ciLow, ciHigh, p10, p50, p90 } = result.partsPerShift.total;
    expect(ciLow).toBeLessThan(mean);
    expect(ciHigh).toBeGreaterThan(mean);
    expect(p10).toBeLessThanOrEqual(p50);
    expect(p50).toBeLessThanOrEqual(p90);
    const parts = Object.keys(result.partsPerShift).filter((part) => part !== 'total');
    expect(parts).toEqual(['cap', 'ring']);
    const sum = parts.reduce((total, part) => total + result.partsPerShift[part].mean, 0);
    expect(sum).toBeCloseTo(mean, 9);
  });

  test('losses lead from the ceiling down to the good parts', () => {
    const lost = result.losses.reduce(
      (sum: number, l: { partsPerShift: number }) => sum + l.partsPerShift,
      0,
    );
    expect(result.ceilingPerShift - lost).toBeCloseTo(result.partsPerShift.total.mean, 9);
  });

  test('the other programs stand beside, each as it is when run alone after the same warm-up', async () => {
    const rules = result.rules as { dispatch: string; difference: { mean: number } | null }[];
    expect(rules.map((r) => r.dispatch)).toEqual(['order', 'strict', 'first', 'nearest', 'longest']);
    expect(rules[0]!.difference).toBeNull();
    const alone = await json(shop, '--dispatch', 'first');
    expect(alone.rules).toEqual([]);
    expect(alone.warmupH).toBe(result.warmupH);
    expect(rules[2]!.difference!.mean).toBeCloseTo(
      alone.partsPerShift.total.mean - result.partsPerShift.total.mean,
      9,
    );
  });

  test('the response time is one figure: its row among the losses', () => {
    const losses = result.losses as { cause: string; mean: number }[];
    const row = losses.find((loss) => loss.cause === "operator's response time")!;
    expect(row.mean).toBeGreaterThan(0);
    expect(result.responseCost.mean).toBe(row.mean);
  });

  test('--explain has the five closed forms with what they assume', () => {
    const { closedForm, alike } = result.explanation;
    expect(alike).toBe(false);
    for (const form of ['synchronous', 'random', 'wright', 'finiteSource', 'constantService']) {
      expect(closedForm[form].rows[0].machines).toBe(2);
      expect(closedForm[form].assumption).toMatch(/\.$/);
    }
  });
});

deepTest('threads change nothing, the seed does', async () => {
  const of = async (...more: string[]) => {
    const args = [
      'simulate',
      shop,
      '--dispatch',
      'first',
      '--replications',
      '4',
      '--hours',
      '8',
      '--json',
      ...more,
    ];
    const { eventsPerSecond: _, ...rest } = JSON.parse((await run(args)).out);
    return rest;
  };
  const one = await of('--workers', '1');
  expect(await of('--workers', '3')).toEqual(one);
  expect((await of('--workers', '1', '--seed', '2')).partsPerShift).not.toEqual(one.partsPerShift);
});

// In the quick run tests/relations/commands.test.ts holds it.
deepTest('without chance the order makes the parts of the schedule', async () => {
  const schedule = JSON.parse((await run(['schedule', data('wash-line'), '--json'])).out);
  const result = await json(data('wash-line'), '--dispatch', 'order', '--hours', '100');
  expect(result.periodS.mean).toBeCloseTo(schedule.periodS, 6);
  const perH = (result.partsPerShift.total.mean * result.shifts) / result.horizonH;
  expect(perH).toBeCloseTo(schedule.partsPerH.total, 1);
  expect(result.losses.map((l: { cause: string }) => l.cause)).toEqual([
    'robot handling, travel and waiting',
  ]);
});

deepTest('goes on until the half-width is reached', async () => {
  const args = ['simulate', shop, '--dispatch', 'first', '--workers', '1', '--json'];
  const result = JSON.parse((await run([...args, '--precision-pct', '1'])).out);
  expect(result.halfWidthReached).toBe(true);
  expect(result.halfWidthPct).toBeLessThanOrEqual(1);
  expect(result.replications % 10).toBe(0);
  expect(result.replications).toBeGreaterThan(10);
});

test('a plain rule against the best sequence', async () => {
  const args = ['schedule', data('two-hands'), '--dispatch', 'first'];
  const { dispatch, partsPerH } = JSON.parse((await run([...args, '--json'])).out);
  expect(dispatch.rule).toBe('first');
  expect(dispatch.lossPct).toBeCloseTo(100 * (1 - dispatch.partsPerH / partsPerH.total), 9);
  expect(dispatch.partsPerH).toBeLessThan(partsPerH.total);
  expect(flat((await run(args)).out)).toContain(
    `makes ${dispatch.partsPerH.toFixed(1)} parts an hour, against ${partsPerH.total.toFixed(1)} of the sequence above: it loses ${dispatch.lossPct.toFixed(1)}%.`,
  );
});

test('a part that waits too long is told with the rules', async () => {
  const said = await simulate(data('no-schedule'), '--full');
  expect(said.exit).toBe(0);
  expect(flat(said.out)).toContain('But parts wait longer than their step allows: `first` 76.0');
  expect(flat(said.out)).toContain('No repeating sequence was found');
  const order = await simulate(data('no-schedule'), '--dispatch', 'order');
  expect(order.exit).toBe(3);
  expect(order.out).toBe('');
});

test('a cell that locks up ends with 3 and who waits for whom', async () => {
  const cell = join(cwd, 'locked');
  cpSync(join(root, 'data', 'two-hands'), cell, { recursive: true });
  writeFileSync(
    join(cell, 'stations.csv'),
    'station,kind,capacity\nin,infeed,\nmill,machine,\nout,outfeed,5\n',
  );
  writeFileSync(
    join(cell, 'routes.csv'),
    'part,step,stations,cycle_s,load_s,unload_s\ncap,1,in,,,3\ncap,2,mill,60,5,4\ncap,3,out,,3,\n',
  );
  writeFileSync(join(cell, 'robot.csv'), 'setting,value\ntravel_s,2\nhands,1\n');
  writeFileSync(
    join(cell, 'shifts.csv'),
    'pattern,shift,days,start,end,breaks,attended,operators,labour_per_h\nnights,night,Mon-Sun,00:00,00:00,,no,0,0\n',
  );
  const all = await simulate(cell);
  expect(all.exit).toBe(3);
  expect(flat(all.err)).toContain(
    'The fixed order waits to pick cap at mill. Every program locks the cell up',
  );
  const said = await simulate(cell, '--dispatch', 'first');
  expect(said.exit).toBe(3);
  expect(said.out).toBe('');
  expect(flat(said.err)).toContain('the cell locks up: nothing can move any more.');
  expect(flat(said.err)).toContain('mill holds a finished cap that waits for room at out. out is full');
  const { deadlock } = await json(cell, '--dispatch', 'first');
  expect(deadlock).toContain('waits for room at out');
});

describe('wrong uses', () => {
  test.each<[string[], string]>([
    [['--pattern', 'one shfit'], 'There is no pattern `one shfit` in shifts.csv; it has `one shift`,'],
    [['--dispatch', 'nearst'], 'nearest'],
    [['--replications', '0'], '1 to 10'],
    [['--precision-pct', '0'], 'above 0'],
  ])('%j', async (more, text) => {
    const said = await simulate(data('demo'), ...more);
    expect(said.exit).toBe(2);
    expect(said.out).toBe('');
    expect(flat(said.err)).toContain(text);
  });
});

test('progress on standard error of a terminal only, and taken away', async () => {
  const args = ['simulate', data('wash-line'), '--dispatch', 'first', '--hours', '8', ...quick];
  const silent = await run(args);
  expect(silent.err).toBe('');
  const shown = await run(args, { isErrorTTY: true });
  expect(shown.err).toMatch(/Simulating: \d of 2 runs/);
  expect(shown.err.endsWith('\r\u001b[2K')).toBe(true);
  expect(shown.out).toBe(silent.out);
});

describe('Ctrl-C', () => {
  const long = ['simulate', shop, '--dispatch', 'first', '--workers', '1', '--replications', '9999'];

  test('before the first run is done there is nothing to tell', async () => {
    const said = await run(long, {
      onInterrupt: (stop) => {
        stop();
        return () => {};
      },
    });
    expect(said.exit).toBe(4);
    expect(said.out).toBe('');
    expect(said.err).toBe(
      'The simulation was stopped before its first run was done, so there is nothing to show.\n',
    );
  });

  test('gives the runs that are done, marked incomplete', async () => {
    let stop = (): void => {};
    let out = '';
    let stopped = false;
    const exit = await run(long, {
      isErrorTTY: true,
      stderr: (text) => {
        if (text.includes('Simulating: 16 of')) stop();
      },
      stdout: (text) => {
        out += text;
      },
      onInterrupt: (call) => {
        stop = call;
        return () => {
          stopped = true;
        };
      },
    });
    expect(exit.exit).toBe(4);
    expect(stopped).toBe(true);
    expect(flat(out)).toMatch(/INCOMPLETE: the work was stopped after 16 runs;/);
    expect(flat(out)).toContain('The work was stopped early; the figures are of the runs done by then.');
  });

  test('as a process it ends by itself, without a trace', async () => {
    // It interrupts itself as soon as it listens: no clock decides how far it is by then. One Ctrl-C may come twice, from
    // the terminal and from the program between.
    const preload = `const until = setInterval(() => {
      if (process.listenerCount('SIGINT') === 0) return;
      clearInterval(until);
      process.once('SIGINT', () => process.kill(process.pid, 'SIGINT'));
      process.kill(process.pid, 'SIGINT');
    });`;
    const node = ['--import', `data:text/javascript,${encodeURIComponent(preload)}`];
    const child = spawn(process.execPath, [...node, join(root, 'dist/cli/main.js'), ...long], { cwd });
    let said = '';
    child.stdout.on('data', (text) => (said += text));
    child.stderr.on('data', (text) => (said += text));
    const code = await new Promise((done) => child.on('exit', done));
    expect(code).toBe(4);
    expect(said).toMatch(/INCOMPLETE|was stopped before its first run/);
    expect(said).not.toMatch(/Error:|ExceededWarning|at file:/);
  });
});
