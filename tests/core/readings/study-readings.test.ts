// The study as a whole: by hand on small readings, by construction on drawn ones.
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { timeDistribution } from '../../../src/core/distributions/distribution.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { outlierLimits } from '../../../src/core/readings/outliers.js';
import type { StopwatchReading } from '../../../src/core/readings/reading.js';
import { readingsAssumptions, readingsWarnings } from '../../../src/core/readings/remarks.js';
import { sessionTrend } from '../../../src/core/readings/session-trend.js';
import {
  defaultReadingsOptions,
  type ReadingsOptions,
  studyReadings,
} from '../../../src/core/readings/study-readings.js';
import { studentQuantile } from '../../../src/core/statistics/student-quantile.js';
import { inspectTables } from '../../../src/tables/inspect-tables.js';
import { readCell } from '../../../src/tables/read-cell.js';
import { tableText } from '../../../src/tables/table-text.js';
import { cases } from '../../support/size.js';
import { soundTables } from '../../tables/sound-tables.js';

const cell = readCell(soundTables);

function readingsOf(
  element: string,
  seconds: readonly number[],
  more: Partial<StopwatchReading> = {},
): StopwatchReading[] {
  return seconds.map((s, i) => ({
    element,
    seconds: s,
    cell: '',
    observer: '',
    note: '',
    ratingPct: 100,
    foreign: false,
    at: { file: 'watch.csv', line: i + 2 },
    ...more,
  }));
}

const study = (
  readings: readonly StopwatchReading[],
  of: Cell | null = null,
  options: Partial<ReadingsOptions> = {},
) => studyReadings(readings, of, { ...defaultReadingsOptions, ...options });
const only = (readings: readonly StopwatchReading[], options: Partial<ReadingsOptions> = {}) =>
  study(readings, null, options).elements[0]!;

describe('figures', () => {
  it('of five readings, by hand', () => {
    const e = only(readingsOf('mill_1 load', [7, 6, 7, 7, 6]));
    // Mean 6.6, sum of squares about it 1.2, so s = sqrt(0.3).
    expect(e.mean).toBeCloseTo(6.6, 12);
    expect(e.sd).toBeCloseTo(Math.sqrt(0.3), 12);
    expect(e.cvPct).toBeCloseTo((100 * Math.sqrt(0.3)) / 6.6, 10);
    expect(e.ciHigh! - e.mean).toBeCloseTo(2.776445 * Math.sqrt(0.3 / 5), 5);
    expect([e.min, e.median, e.max]).toEqual([6, 7, 7]);
    // (1.95996 x 0.547723 / (0.05 x 6.6))^2 = 10.58.
    expect(e.neededN).toBe(11);
    // By Student: 13 readings give t(12) = 2.178813 x 0.547723 / sqrt(13) = 0.33099 > 0.33; 14 are enough.
    expect(e.neededNByStudent).toBe(14);
    expect(e.moreN).toBe(9);
    expect(e.fit.distribution).toBe('readings');
  });

  it('one reading has a mean and nothing else', () => {
    const e = only(readingsOf('mill_1 load', [12.5]));
    expect(e).toMatchObject({
      n: 1,
      mean: 12.5,
      sd: null,
      ciLow: null,
      cvPct: null,
      neededN: null,
      moreN: null,
    });
    expect(readingsWarnings(study(readingsOf('mill_1 load', [12.5])), defaultReadingsOptions)).toEqual([
      'mill_1 load: one reading says nothing about variation.',
    ]);
  });

  it('ratings make normal times of each reading; the allowance makes the standard time', () => {
    const rated = [
      ...readingsOf('bench load', [20], { ratingPct: 120 }),
      ...readingsOf('bench load', [30], { ratingPct: 80 }),
    ];
    const e = only(rated, { allowance: { pct: 15, basis: 'work' } });
    expect(e.mean).toBe(25);
    expect(e.normal.mean).toBe(24);
    expect(e.normal.sd).toBe(0);
    expect(e.isRated).toBe(true);
    expect(e.standardS).toBeCloseTo(27.6, 12);
    expect(e.fit).toMatchObject({ distribution: 'constant', parameters: [24] });
  });

  it('do not depend on the order of the readings, save the trend', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 50, max: 90 }), { minLength: 2, maxLength: 15 }), (seconds) => {
        const forth = only(readingsOf('mill_1 load', seconds));
        const back = only(readingsOf('mill_1 load', [...seconds].reverse()));
        expect(back.mean).toBeCloseTo(forth.mean, 10);
        expect(back.sd!).toBeCloseTo(forth.sd!, 10);
        expect(back.neededN).toBe(forth.neededN);
        expect(back.outliers.map((o) => o.seconds).sort()).toEqual(
          forth.outliers.map((o) => o.seconds).sort(),
        );
        expect(back.fit).toEqual(forth.fit);
      }),
    );
  });
});

describe('foreign elements', () => {
  const readings = [
    ...readingsOf('mill_1 load', [12, 13, 12, 13, 12, 13, 12, 13]),
    ...readingsOf('mill_1 load', [40, 60], { foreign: true, note: 'part dropped' }),
    ...readingsOf('door jammed', [300], { foreign: true }),
  ];
  const { elements, foreignOnly, totals } = study(readings);

  it('are in no figure of the element', () => {
    expect(elements).toHaveLength(1);
    expect(elements[0]).toMatchObject({ n: 8, mean: 12.5, max: 13, outliers: [] });
  });

  it('are counted and timed', () => {
    expect(elements[0]!.foreign).toEqual({
      count: 2,
      meanS: 50,
      totalS: 100,
      oneIn: 4,
      perReadingS: 12.5,
      notes: ['part dropped'],
    });
    expect(foreignOnly).toEqual([
      {
        element: 'door jammed',
        foreign: { count: 1, meanS: 300, totalS: 300, oneIn: null, perReadingS: null, notes: [] },
      },
    ]);
    expect(totals).toEqual({ readings: 11, regular: 8, foreign: 3, observedS: 500, foreignPct: 80 });
  });
});

describe('outliers', () => {
  it('by the median absolute deviation, by hand', () => {
    // Median 12, deviations 2 1 1 0 1 1 2 8: their median 1; the limit is 3.5 / 0.6745 = 5.1890 from 12 on either side.
    expect(outlierLimits([10, 11, 11, 12, 13, 13, 14, 20, 12], 'mad')).toEqual({
      low: 12 - 3.5 / 0.6745,
      high: 12 + 3.5 / 0.6745,
    });
  });

  it('where more than half are equal, by the mean absolute deviation', () => {
    // Deviations 0 x 8, 1, 9: mean 1; 3.5 / 0.797885 = 4.3866.
    const { low, high } = outlierLimits([12, 12, 12, 12, 12, 12, 12, 12, 13, 21], 'mad')!;
    expect(high - 12).toBeCloseTo(4.3866, 4);
    expect(12 - low).toBeCloseTo(4.3866, 4);
  });

  it('by fences, by hand', () => {
    // Quartiles of type 7: 3.25 and 7.75 of 1 to 10; 1.5 x 4.5 outside them.
    expect(outlierLimits([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 'fences')).toEqual({ low: -3.5, high: 14.5 });
  });

  it('nothing is said of fewer than five, or of equal ones', () => {
    expect(outlierLimits([1, 2, 3, 99], 'mad')).toBeNull();
    expect(outlierLimits([5, 5, 5, 5, 5], 'fences')).toBeNull();
  });

  const readings = readingsOf('mill_1 load', [12, 13, 12, 11, 12, 13, 11, 12, 25]);

  it('are named with their line and stay in the figures', () => {
    const e = only(readings);
    expect(e.outliers).toEqual([{ seconds: 25, line: 10, note: '' }]);
    expect(e.n).toBe(9);
    expect(e.otherWay).toMatchObject({ n: 8, mean: 12 });
    expect(readingsWarnings(study(readings), defaultReadingsOptions)[0]).toBe(
      'mill_1 load: 25.0 s (line 10) lies far from the others. It is in the figures; without it the mean is 12.0 s instead of 13.4 s.',
    );
  });

  it('are left out where that is asked, and still named', () => {
    const e = only(readings, { dropOutliers: true });
    expect(e).toMatchObject({ n: 8, mean: 12, otherWay: { n: 9 } });
    expect(e.outliers).toHaveLength(1);
    expect(e.fit.parameters).not.toContain(25);
  });
});

describe('the session', () => {
  const noise = (i: number): number => ((i * 7919) % 13) / 26;

  it('learning: the rate of a learning curve comes back', () => {
    const seconds = Array.from({ length: 40 }, (_, i) => 30 * (i + 1) ** Math.log2(0.85));
    const trend = sessionTrend(seconds, 0.95)!;
    expect(trend).toMatchObject({ tau: -1, direction: 'falls' });
    expect(trend.learningRatePct).toBeCloseTo(85, 8);
  });

  it('a steady rise: its slope comes back within its interval', () => {
    const trend = sessionTrend(
      Array.from({ length: 30 }, (_, i) => 20 + 0.1 * i + noise(i)),
      0.95,
    )!;
    expect(trend.direction).toBe('rises');
    expect(trend.slopeSPerReading.ciLow).toBeLessThan(0.1);
    expect(trend.slopeSPerReading.ciHigh).toBeGreaterThan(0.1);
    expect(trend.changeS).toBeCloseTo(29 * trend.slopeSPerReading.slope, 10);
  });

  it('turns of long and short hang together', () => {
    const readings = readingsOf(
      'mill_1 load',
      Array.from({ length: 20 }, (_, i) => 12 + (i % 2) * 3 + noise(i)),
    );
    const { elements } = study(readings);
    expect(elements[0]!.trend).toMatchObject({ direction: 'none', hangsTogether: true });
    expect(readingsWarnings(study(readings), defaultReadingsOptions)[0]).toContain('take turns');
  });

  it('says no trend where there is none more often than 9 times in 10', () => {
    let clear = 0;
    let state = 4711;
    for (let run = 0; run < 400; run++) {
      const seconds = Array.from({ length: 25 }, () => {
        state = (state * 16807) % 2147483647;
        return 10 + state / 2147483647;
      });
      if (sessionTrend(seconds, 0.95)!.direction !== 'none') clear++;
    }
    expect(Math.abs(clear / 400 - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / 400));
  });

  it('is not told of few or equal readings', () => {
    expect(sessionTrend([1, 2, 3, 4, 5], 0.95)).toBeNull();
    expect(sessionTrend([5, 5, 5, 5, 5, 5, 5], 0.95)).toBeNull();
  });
});

describe('several observers', () => {
  const readings = [
    ...readingsOf('mill_1 load', [12, 12.2, 11.9, 12.1, 12, 11.8], { observer: 'early' }),
    ...readingsOf('mill_1 load', [14, 14.2, 13.9, 14.1, 14, 13.8], { observer: 'late' }),
  ];

  it('are held against the others', () => {
    const { groups } = only(readings);
    expect(groups.map((g) => [g.by, g.name, g.n])).toEqual([
      ['observer', 'early', 6],
      ['observer', 'late', 6],
    ]);
    // Alike spreads (s^2 = 0.02), six each: Student with 10 freedom, 2.228139 x sqrt(0.02 / 3).
    const { mean, ciHigh } = groups[1]!.againstOthers!;
    expect(mean).toBeCloseTo(2, 10);
    expect(ciHigh - mean).toBeCloseTo(2.228139 * Math.sqrt(0.02 / 3), 5);
    expect(readingsWarnings(study(readings), defaultReadingsOptions).join(' ')).toContain(
      'observer early: 2.00 s shorter',
    );
  });

  it('of more than two each difference is held to more', () => {
    const three = [...readings, ...readingsOf('mill_1 load', [12, 12.4, 11.6, 12], { observer: 'night' })];
    const { groups } = only(three);
    const night = groups.find((g) => g.name === 'night')!.againstOthers!;
    const plain = studentQuantile(0.975, 13);
    const strict = studentQuantile(1 - 0.025 / 3, 13);
    expect(strict).toBeGreaterThan(plain);
    expect(night.ciHigh - night.ciLow).toBeGreaterThan(0);
    expect(groups).toHaveLength(3);
  });

  it('of one observer, or of very many, nothing is compared', () => {
    expect(only(readingsOf('mill_1 load', [1, 2, 3], { observer: 'early' })).groups).toEqual([]);
    const many = Array.from({ length: 13 }, (_, i) =>
      readingsOf('mill_1 load', [1, 2], { observer: `o${i}` }),
    ).flat();
    expect(only(many).groups).toEqual([]);
  });
});

describe('rows for the tables', () => {
  const spread = (middle: number, n: number): number[] =>
    Array.from({ length: n }, (_, i) => Math.round(10 * middle * (1 + ((i * 37) % 11) / 200)) / 10);
  const readings = [
    ...readingsOf('mill_1 cycle', spread(250, 12)),
    ...readingsOf('mill_1 load', spread(13, 25)),
    ...readingsOf('mill_2 load', spread(15, 25)),
    ...readingsOf('rack unload', spread(5, 8)),
    ...readingsOf('done place', spread(6, 3)),
    ...readingsOf('mill_1 ready', spread(2.5, 3)),
    ...readingsOf('mill_1 repair', [240, 300, 420]),
    ...readingsOf('mill_2 repair', [240, 300, 420]),
    ...readingsOf('mill_1 response', [60, 90, 120, 180, 60]),
    ...readingsOf('travel rack mill_1 loaded', spread(2, 6)),
    ...readingsOf('travel mill_2 rack', spread(3, 6)),
    ...readingsOf('travel done rack', spread(4, 6)),
    ...readingsOf('deburr', [9]),
  ];
  const found = study(readings, cell);
  const rowsOf = (file: string) =>
    found.tables.find((t) => t.file === file)!.rows.map((row) => row.join(','));
  const at = (name: string) => found.elements.find((e) => e.element === name)!;

  it('fill in what was measured and keep the rest', () => {
    const [cycle, load1, load2] = ['mill_1 cycle', 'mill_1 load', 'mill_2 load'].map((n) => at(n).mean);
    const routes = found.tables.find((t) => t.file === 'routes.csv')!.rows;
    expect(routes.map((row) => row.slice(0, 3).join(','))).toEqual([
      'cap,1,rack',
      'cap,2,mill_1|mill_2',
      'cap,5,done',
    ]);
    const [, mills] = routes;
    expect(Number(mills![3])).toBeCloseTo(cycle!, 2);
    expect(Number(mills![4])).toBeCloseTo((load1! + load2!) / 2, 2);
    expect(mills![5]).toBe('10');
    expect(rowsOf('stations.csv')).toEqual(['mill_1,machine,1,0,1,2.56667,3,12,20,5.333']);
    expect(found.notes).toEqual([]);
  });

  it('alternatives that were not timed are told', () => {
    expect(study(readingsOf('mill_1 cycle', [240, 244]), cell).notes).toEqual([
      'Step 2 of cap has one time for mill_1, mill_2; mill_2 was not timed and takes it too.',
    ]);
  });

  it('travel keeps the way that was not timed, and scatters by the station it reaches', () => {
    expect(rowsOf('travel.csv')[0]).toMatch(/^rack,mill_1,1\.6,2\.\d+$/);
    expect(rowsOf('travel.csv')[1]).toMatch(/^mill_2,rack,3\.\d+,/);
    const variation = rowsOf('variation.csv').map((row) => row.split(',').slice(0, 3).join(' '));
    expect(variation).toContain('rack travel readings');
    expect(found.scatters.find((s) => s.station === 'rack' && s.element === 'travel')!.from).toEqual([
      'travel mill_2 rack',
      'travel done rack',
    ]);
  });

  it('repair and response are in minutes; a repair without stops gets no row of stations.csv', () => {
    expect(rowsOf('variation.csv')).toContain('mill_1,response,readings,1|1|1.5|2|3,,');
    expect(rowsOf('variation.csv')).toContain('mill_1,repair,constant,5.333,,');
    expect(rowsOf('stations.csv').join('\n')).not.toContain('mill_2');
  });

  it('a name without a meaning is timed and gives no row', () => {
    expect(at('deburr')).toMatchObject({ n: 1, mean: 9, timed: null, nameProblem: { what: 'form' } });
    expect(found.tables.flatMap((t) => t.rows.flat())).not.toContain('deburr');
  });

  it('pasted into the folder they pass the check, and the cell has the measured times', () => {
    const { cell: pasted, complaints } = inspectTables(pastedTables(found.tables));
    expect(complaints).toEqual([]);
    const mills = pasted!.routes[0]!.steps[1]!;
    expect(mills.cycleS).toBeCloseTo(at('mill_1 cycle').mean, 2);
    expect(pasted!.stations.find((s) => s.name === 'mill_1')!.readyS).toBeCloseTo(at('mill_1 ready').mean, 2);
  });

  it('without a cell they hold what was measured', () => {
    const bare = study([...readingsOf('lathe cycle hub', [99, 101]), ...readingsOf('index', [2, 2.2])]);
    expect(bare.tables).toEqual([
      expect.objectContaining({
        file: 'routes.csv',
        rows: [['hub', '', 'lathe', '100', '', '', '', '', '']],
      }),
      { file: 'robot.csv', header: ['setting', 'value'], rows: [['index_s', '2.1']] },
      expect.objectContaining({
        file: 'variation.csv',
        rows: [['lathe', 'cycle', 'constant', '100', '', '']],
      }),
    ]);
  });

  it('unlike times of several parts at one station call for the name of the part', () => {
    const two = readCell({
      ...soundTables,
      'routes.csv': `${soundTables['routes.csv']}lid,1,rack,,,4,,,\nlid,2,mill_1,100,12,10,,,\nlid,3,done,,4,,,,\n`,
    });
    const both = study(
      [...readingsOf('mill_1 cycle', [1, 2]), ...readingsOf('mill_1 cycle lid', [110, 112])],
      two,
    );
    expect(both.elements[0]!.table!.problem).toBe(
      'The parts made at mill_1 have unlike times in routes.csv; name the part behind it, such as `mill_1 cycle cap`.',
    );
    expect(both.elements[1]!.table).toMatchObject({ tableS: 100, isOutside: false });
    expect(both.tables.find((t) => t.file === 'routes.csv')!.rows).toEqual([
      ['lid', '2', 'mill_1', '111', '12', '10', '', '', ''],
    ]);
    const load = study(readingsOf('mill_1 load', [11, 13]), two);
    expect(load.tables.find((t) => t.file === 'routes.csv')!.rows).toHaveLength(2);
  });
});

/** The sound tables with the rows put in the place of those of the same name. */
function pastedTables(
  tables: readonly { file: string; header: readonly string[]; rows: readonly (readonly string[])[] }[],
) {
  const keys: Record<string, number> = {
    'stations.csv': 1,
    'routes.csv': 2,
    'travel.csv': 2,
    'variation.csv': 2,
    'robot.csv': 1,
  };
  const pasted: Record<string, string> = { ...soundTables };
  for (const { file, header, rows } of tables) {
    const keyOf = (row: readonly string[]) => row.slice(0, keys[file]).join(',');
    const [, ...old] = pasted[file]!.trim()
      .split('\n')
      .map((line) => line.split(','));
    const kept = old.filter((row) => !rows.some((r) => keyOf(r) === keyOf(row)));
    const all = [...kept, ...rows].sort((a, b) => (file === 'routes.csv' ? Number(a[1]) - Number(b[1]) : 0));
    pasted[file] = tableText([header, ...all]);
  }
  return pasted;
}

test('a row of variation.csv has the moments of the fit it was made from', () => {
  const drawn = fc.record({
    name: fc.constantFrom('lognormal', 'gamma', 'triangular', 'weibull', 'exponential' as const),
    mean: fc.double({ min: 1, max: 600, noNaN: true }),
    cv: fc.double({ min: 0.02, max: 0.5, noNaN: true }),
    n: fc.integer({ min: 1, max: 60 }),
    element: fc.constantFrom('mill_1 cycle', 'mill_1 response', 'travel rack mill_1'),
  });
  fc.assert(
    fc.property(drawn, ({ name, mean, cv, n, element }) => {
      const parameters: Record<string, number[]> = {
        lognormal: [mean, mean * cv],
        gamma: [mean, 1 / cv ** 2],
        triangular: [mean * (1 - cv), mean, mean * (1 + 2 * cv)],
        weibull: [mean, 1 / cv],
        exponential: [mean],
      };
      const { quantile } = timeDistribution(name as 'gamma', parameters[name]!);
      const seconds = Array.from({ length: n }, (_, i) => quantile((((i * 29) % n) + 0.5) / n));
      const found = study(readingsOf(element, seconds), cell);
      const { cell: pasted, complaints } = inspectTables(pastedTables(found.tables));
      expect(complaints.filter((c) => c.severity === 'error')).toEqual([]);
      const unit = element === 'mill_1 response' ? 60 : 1;
      const row = pasted!.variation.find((v) => v.station === 'mill_1' && v.element !== 'repair')!;
      const { mean: m, variance } = timeDistribution(row.distribution, row.parameters);
      const { fit } = found.elements[0]!;
      expect(m * unit).toBeCloseTo(fit.mean, 1);
      expect(Math.abs(Math.sqrt(variance) * unit - fit.sd)).toBeLessThanOrEqual(0.02 * fit.sd + 1e-3);
    }),
    { numRuns: cases(60) },
  );
});

test('what the figures rest on is told', () => {
  const rated = readingsOf('mill_1 load', [12, 13], { ratingPct: 90 });
  const options = { ...defaultReadingsOptions, allowance: { pct: 12, basis: 'day' } as const };
  const said = readingsAssumptions(study(rated, null, options), options).join('\n');
  expect(said).toContain('(z s / (k mean))^2 for 5% of the mean');
  expect(said).toContain('Normal time is each reading times its rating');
  expect(said).toContain('12% of the whole time of the day');
  expect(said).toContain('Trends are looked for from six unlike readings on');
});
