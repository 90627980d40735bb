// Sweeps: each point is the schedule of the changed cell; threads and parts change nothing; shards of other sweeps are refused.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { quickShop } from '../support/quick-shop.js';
import { atSize, deepTest } from '../support/size.js';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const cell = data('wash-line');
const shop = quickShop(join(cwd, 'shop'));
const AXIS = 'routes.sleeve.2.cycle_s=60:100:4';
const sweep = (...more: string[]) => runIn(cwd, ['sweep', cell, '--sweep', AXIS, ...more]);
const file = (name: string): string => readFileSync(join(cwd, name), 'utf8');

test('each point has the figures of `schedule` with that value set', async () => {
  const { out, err, exit } = await sweep('--json', '--workers', '1');
  expect(err).toBe('');
  expect(exit).toBe(0);
  const result = JSON.parse(out);
  expect(result.rows).toHaveLength(11);
  for (const row of result.rows.slice(0, 3)) {
    const alone = await runIn(cwd, [
      'schedule',
      cell,
      '--set',
      `routes.sleeve.2.cycle_s=${row.values[0]}`,
      '--json',
    ]);
    const { partsPerH, periodS, gapPct, robot } = JSON.parse(alone.out);
    expect(row.figures).toEqual([partsPerH.total, periodS, gapPct, robot.utilizationPct]);
  }
});

test('threads and parts change nothing', async () => {
  await sweep('--workers', '1', '--out', 'one.csv');
  await sweep('--workers', '3', '--out', 'three.csv');
  expect(file('three.csv')).toBe(file('one.csv'));
  for (const i of [1, 2, 3])
    expect((await sweep('--part', `${i}/3`, '--workers', '1', '--out', `s${i}.csv`)).exit).toBe(0);
  const merged = await runIn(cwd, ['sweep', '--merge', 's3.csv', 's1.csv', 's2.csv', '--out', 'all.csv']);
  expect(merged).toMatchObject({ exit: 0, err: '' });
  expect(file('all.csv')).toBe(file('one.csv'));
  expect(file('one.csv').split('\n')).toHaveLength(1 + 1 + 11 + 1 + 1);
});

test('parts as workbooks and CSV give together what the sweep gives in one go, as either', async () => {
  for (const [part, name] of [
    ['1/3', 'p1.xlsx'],
    ['2/3', 'p2.ods'],
  ] as const)
    await sweep('--part', part, '--workers', '1', '--out', name);
  const merge = ['sweep', '--merge', 'p2.ods', 's3.csv', 'p1.xlsx'];
  expect(await runIn(cwd, [...merge, '--out', 'books.csv'])).toMatchObject({ exit: 0, err: '' });
  expect(file('books.csv')).toBe(file('one.csv'));
  expect(await runIn(cwd, [...merge, '--out', 'books.xlsx'])).toMatchObject({ exit: 0, err: '' });
  expect((await runIn(cwd, ['sweep', '--merge', 'books.xlsx', '--out', 'again.csv'])).exit).toBe(0);
  expect(file('again.csv')).toBe(file('one.csv'));
  const missing = await runIn(cwd, ['sweep', '--merge', 'p1.xlsx', '--out', 'x.csv']);
  expect(missing.err).toContain('7 of 11 points are missing');
  await runIn(cwd, ['init', 'other.xlsx']);
  expect((await runIn(cwd, ['sweep', '--merge', 'other.xlsx', '--out', 'x.csv'])).err).toContain(
    'its sheets do not hold the points of a sweep',
  );
});

describe('shards that do not fit are refused', () => {
  const merge = (...files: string[]) => runIn(cwd, ['sweep', '--merge', ...files, '--out', 'x.csv']);
  test('one is missing', async () => {
    const said = await merge('s1.csv', 's3.csv');
    expect(said.exit).toBe(2);
    expect(said.err).toContain(
      '4 of 11 points are missing (2, 5, 8, 11); a part is not given or did not end.',
    );
  });
  test('one is given twice', async () => {
    expect((await merge('s1.csv', 's1.csv')).err).toContain('Point 1 is in `s1.csv` and in another file too');
  });
  test('one is of another sweep', async () => {
    await runIn(cwd, [
      'sweep',
      cell,
      '--sweep',
      AXIS,
      '--set',
      'robot.cost_per_h=1',
      '--part',
      '2/3',
      '--workers',
      '1',
      '--out',
      'other.csv',
    ]);
    expect((await merge('s1.csv', 'other.csv', 's3.csv')).err).toContain(
      '`other.csv` is of another sweep than `s1.csv`',
    );
  });
  test('one was cut off', async () => {
    const text = file('s2.csv');
    writeFileSync(join(cwd, 'cut.csv'), text.slice(0, text.length - 30));
    expect((await merge('s1.csv', 'cut.csv', 's3.csv')).err).toContain('no point of its sweep');
  });
  test('one is no sweep at all, or is not there', async () => {
    writeFileSync(join(cwd, 'plain.csv'), 'a,b\n1,2\n');
    expect((await merge('plain.csv')).err).toContain('its first line does not mark a sweep');
    expect((await merge('none.csv')).err).toContain('`none.csv` cannot be read: it is not there.');
  });
});

test('a shard that has no point says so, and an input that moves nothing as well', async () => {
  const none = await sweep('--part', '12/12', '--workers', '1');
  expect(none.exit).toBe(0);
  expect(none.out).toMatch(/^0 of 11 points: there are more parts than points/);
  const args = ['sweep', cell, '--sweep', 'robot.cost_per_h=1,2,3', '--workers', '1'];
  expect((await runIn(cwd, args)).out).toMatch(
    /^Warning: robot\.cost_per_h changes none of these figures at any of its values\.\nParts per hour: \S+ at all 3 points\./,
  );
});

test('a sweep that is stopped keeps the points that are done, and ends with 4', async () => {
  let stop = () => {};
  const said = await runIn(
    cwd,
    [
      'sweep',
      cell,
      '--sweep',
      'routes.sleeve.2.cycle_s=60:100:0.1',
      '--workers',
      '1',
      '--out',
      'stopped.csv',
    ],
    {
      isErrorTTY: true,
      stderr: (text) => {
        if (/^\D*[1-9]\d* of 401 points/.test(text)) stop();
      },
      onInterrupt: (given) => {
        stop = given;
        return () => {};
      },
    },
  );
  expect(said.exit).toBe(4);
  expect(said.out.replace(/\s+/g, ' ')).toMatch(
    /Warning: The sweep was stopped: \d+ of 401 points are done\. .*Written: stopped\.csv\./,
  );
  const [comment, , ...rows] = file('stopped.csv').trimEnd().split('\n');
  expect(comment).toMatch(/, 401 points$/);
  const done = rows.slice(0, -1).map((row) => Number(row.split(',')[0]));
  expect(done).toEqual(done.map((_, i) => i + 1));
  expect(done.length).toBeGreaterThan(0);
  expect(done.length).toBeLessThan(401);
  const merged = await runIn(cwd, ['sweep', '--merge', 'stopped.csv', '--out', 'x.csv']);
  expect(merged.err).toContain(`${401 - done.length} of 401 points are missing`);
});

test('what has no end is not read', async () => {
  const said = await runIn(cwd, ['sweep', '--merge', '/dev/zero', '--out', 'x.csv']);
  expect(said).toMatchObject({ exit: 2, err: '`/dev/zero` is not an ordinary file.\n' });
});

test('the files of shards have to follow `--merge`', async () => {
  const said = await runIn(cwd, ['sweep', '--merge', '--out', 'x.csv']);
  expect(said.exit).toBe(2);
  expect(said.err).toContain('`--merge` needs the files of the parts after it, found `--out`.');
});

test('two inputs make a grid, and any result can be asked', async () => {
  const args = [
    'sweep',
    cell,
    '--sweep',
    'routes.sleeve.2.cycle_s=60,90',
    '--sweep',
    'stations.lathe.close_s=2:4:1',
  ];
  const { out } = await runIn(cwd, [
    ...args,
    '--figure',
    'schedule.stations.lathe.processingS',
    '--workers',
    '1',
  ]);
  const lines = out.split('\n').map((l) => l.trim().split(/\s+/).join(' '));
  expect(lines).toEqual(expect.arrayContaining(['2 3 4', '60 60 60 60', '90 90 90 90']));
});

interface SizedRow {
  readonly machines: number;
  readonly simulated: { readonly partsPerShift: { readonly mean: number } };
}
const rowOfTwo = ({ rows }: { rows: readonly SizedRow[] }): number =>
  rows.find(({ machines }) => machines === 2)!.simulated.partsPerShift.mean;

describe('figures of the cost case', () => {
  const NPV = 'costcase.increment.npv';
  const sweepCosts = (axis: string, ...figures: string[]) =>
    runIn(cwd, [
      ...['sweep', shop, '--sweep', axis, '--workers', '1', '--json'],
      ...figures.flatMap((path) => ['--figure', path]),
    ]);

  deepTest(
    'each point has the figures of `costcase`, and a dearer box costs its price in year 0',
    async () => {
      const asked = [NPV, 'costcase.breakEvenChangeovers.total', 'costcase.decision'];
      const { out, err } = await sweepCosts('costs.box_price.value=700,900', ...asked);
      expect(err).toBe('');
      const { rows, assumptions } = JSON.parse(out) as {
        rows: { figures: [number, number, string] }[];
        assumptions: string[];
      };
      expect(assumptions.join(' ')).toContain('The low and high of box_price are left out');
      const price = (column: string, value: string) => ['--set', `costs.box_price.${column}=${value}`];
      const set = [...price('value', '900'), ...price('low', ''), ...price('high', '')];
      const alone = await runIn(cwd, ['costcase', shop, ...set, '--json']);
      const { increment, breakEvenChangeovers, decision, byStation } = JSON.parse(alone.out);
      expect(rows[1]!.figures).toEqual([increment.npv, breakEvenChangeovers.total, decision]);
      // Salvage is a sum per box and no tax is set, so the price is the only flow that moves.
      const boxes = byStation.reduce((sum: number, s: { boxes: number }) => sum + s.boxes, 0);
      expect(rows[0]!.figures[0] - rows[1]!.figures[0]).toBeCloseTo(200 * boxes, 6);
      expect(rows[1]!.figures[1]).toBeGreaterThan(rows[0]!.figures[1]);
    },
  );

  deepTest('risk is asked with its trials', async () => {
    const { out } = await sweepCosts('costs.box_price.value=700,90000', 'costcase.risk.probabilityPays');
    const [cheap, dear] = JSON.parse(out).rows.map((r: { figures: number[] }) => r.figures[0]);
    expect(cheap).toBeGreaterThan(0.5);
    expect(dear).toBeLessThan(0.5);
  });

  test('a value that the case refuses ends the sweep with its complaint', async () => {
    const said = await sweepCosts('costs.horizon_years.value=4.5,5,6', NPV);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('4.5');
  });

  test('where the tables lack what the case needs, that is said', async () => {
    const said = await sweep('--workers', '1', '--figure', NPV);
    expect(said.exit).toBe(2);
    expect(said.err).toContain(`\`${NPV}\` cannot be worked out. Too little data to say. Missing:`);
  });
});

test('the mix and the points of a cell can be asked too', async () => {
  const args = ['sweep', shop, '--sweep', 'parts.cap.contribution=3,6', '--workers', '1', '--json'];
  const { out, err } = await runIn(cwd, [
    ...args,
    ...['--figure', 'mix.patterns.day.valuePerWeek', '--figure', 'io.stations.mill_1.inputs'],
  ]);
  expect(err).toBe('');
  const [low, high] = JSON.parse(out).rows.map((r: { figures: number[] }) => r.figures);
  expect(high[0]).toBeGreaterThan(low[0]);
  expect(high[1]).toBe(low[1]);
});

describe('figures of the jobs', () => {
  const sweepJobs = (quantities: string, ...figures: string[]) =>
    runIn(cwd, [
      ...['sweep', shop, '--sweep', `jobs.1002.quantity=${quantities}`, '--workers', '1', '--json'],
      ...figures.flatMap((path) => ['--figure', path]),
    ]);

  deepTest('each point has the figures of `jobs`; more of a job in the same week is late', async () => {
    const day = 'jobs.plans.day';
    const asked = [`${day}.lateParts`, `${day}.setupMin`, `${day}.jobs.1002.inTime`, 'jobs.best'];
    const { out, err } = await sweepJobs('100,900', ...asked, `${day}.resources.mill_1.usedH`);
    expect(err).toBe('');
    const { rows, assumptions } = JSON.parse(out) as {
      rows: { figures: unknown[] }[];
      assumptions: string[];
    };
    expect(assumptions.join(' ')).toContain('the jobs are planned anew');
    const set = ['--set', 'jobs.1002.quantity=900'];
    const { plans, best } = JSON.parse((await runIn(cwd, ['jobs', shop, ...set, '--json'])).out);
    const plan = plans.find((p: { pattern: string }) => p.pattern === 'day');
    const job = plan.jobs.find((j: { job: string }) => j.job === '1002');
    const mill = plan.resources.find((r: { resource: string }) => r.resource === 'mill_1');
    expect(rows[1]!.figures).toEqual([plan.lateParts, plan.setupMin, job.inTime, best, mill.usedH]);
    const late = rows.map(({ figures }) => figures[0]);
    expect(late[0]).toBe(0);
    expect(late[1]).toBeGreaterThan(0);
  });

  deepTest('a plan of one pattern is the same when only that pattern is asked', async () => {
    const evening = 'jobs.plans.day and evening.setupMin';
    const [alone, both] = [await sweepJobs('300', evening), await sweepJobs('300', evening, 'jobs.best')];
    const first = ({ out }: { out: string }) =>
      JSON.parse(out).rows.map((r: { figures: number[] }) => r.figures[0]);
    expect(first(alone)).toEqual(first(both));
  });

  test('a cell without jobs is told so', async () => {
    const said = await sweep('--workers', '1', '--figure', 'jobs.best');
    expect(said).toMatchObject({ exit: 2, out: '' });
    expect(said.err.replace(/\s+/g, ' ')).toContain(
      '`jobs.best` cannot be worked out. There is nothing to plan: jobs.csv has no job, and shifts.csv has no shift to make them in.',
    );
  });
});

deepTest(
  'simulated rows and patterns and effectiveness can be asked, as `size` and `shifts --simulate` give them',
  async () => {
    const sized = ['size.rows.2.simulated.partsPerShift.mean'];
    const args = [shop, '--workers', '1', '--json'];
    const figures = [
      ...sized,
      'shifts.simulated.patterns.day.partsPerWeek.mean',
      'shifts.performance.day.effectivenessPct',
    ];
    const { out, err } = await runIn(cwd, [
      ...['sweep', ...args, '--sweep', 'stations.mill_1.mtbf_h=8', '--nodes', '400000'],
      ...figures.flatMap((path) => ['--figure', path]),
    ]);
    expect(err).toBe('');
    const at = async (...command: string[]) =>
      JSON.parse((await runIn(cwd, [...command, ...args, '--set', 'stations.mill_1.mtbf_h=8'])).out);
    const shifts = await runIn(cwd, ['shifts', ...args, '--simulate', '--set', 'stations.mill_1.mtbf_h=8']);
    const { simulated, performance } = JSON.parse(shifts.out);
    expect(JSON.parse(out).rows[0].figures).toEqual([
      ...(await Promise.all(sized.map(() => at('size')))).map(rowOfTwo),
      simulated.patterns.find((p: { pattern: string }) => p.pattern === 'day').partsPerWeek.mean,
      performance.find((p: { pattern: string }) => p.pattern === 'day').effectivenessPct,
    ]);
  },
);

test('points without a sequence are told, not left out', async () => {
  const args = ['sweep', data('no-schedule'), '--workers', '1', '--nodes', '400000', '--json'];
  const routes = readFileSync(join(data('no-schedule'), 'routes.csv'), 'utf8');
  const [part, step] = routes
    .split('\n')
    .find((l) => /^[a-z]+,2,/.test(l))!
    .split(',');
  const { out } = await runIn(cwd, [
    ...args,
    '--sweep',
    `routes.${part}.${step}.load_s=${atSize('4', '4,5')}`,
    '--figure',
    'schedule.periodS',
  ]);
  expect(
    JSON.parse(out).rows.map((r: { status: string; figures: unknown[] }) => [r.status, ...r.figures]),
  ).toEqual(Array(atSize(1, 2)).fill(['infeasible', null]));
});

describe('wrong uses', () => {
  test.each<[string[], number, string]>([
    [['--figure', 'schedule.period'], 2, 'There is no `period` in `schedule`. Did you mean `periodS`?'],
    [['--figure', 'schedule.robot'], 2, '`schedule.robot` is not one figure; go on with one of: handlingS'],
    [['--figure', 'schedule.searched.seconds'], 2, 'is no figure that can be swept'],
    [['--part', '5/4'], 2, 'expected a part and their number, such as `1/4` to `4/4`'],
    [['--sweep', AXIS], 2, 'is given twice'],
    [['--sweep', 'a.b=1', '--sweep', 'a.c=1'], 2, 'One or two inputs can be swept at once, 3 are given.'],
    [['--merge', 's1.csv'], 2, '`--merge` takes the files of the parts'],
    [['--sweep', 'robot.hnds=1,2'], 1, 'Did you mean `hands`?'],
    [['--sweep', 'robot.hands=1:3:1'], 1, 'For hands found `3`, expected 1 or 2.'],
  ])('%j', async (more, exit, text) => {
    const said = await sweep('--workers', '1', ...more);
    expect(said.exit).toBe(exit);
    expect(said.out).toBe('');
    expect(said.err.replace(/\s+/g, ' ')).toContain(text);
  });

  test('a value in the middle that a column refuses ends the sweep with its complaint', async () => {
    const said = await runIn(cwd, ['sweep', cell, '--sweep', 'robot.hands=1:2:0.5', '--workers', '1']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('For hands found `1.5`, expected 1 or 2.');
  });
});
