// Whatever the figures, no chart has a place that is no number, a mark outside its frame, or a name that is markup.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { histogram } from '../../../src/core/cost/doubt/histogram.js';
import type { CostCaseFound } from '../../../src/core/cost/result.js';
import { DAYS } from '../../../src/core/model/cell.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { cellPlanChart } from '../../../src/render/charts/cell-plan-chart.js';
import { cellDifferenceChart } from '../../../src/render/charts/difference-chart.js';
import { lossChart } from '../../../src/render/charts/loss-chart.js';
import { multipleActivityChart } from '../../../src/render/charts/multiple-activity-chart.js';
import { sizeChart } from '../../../src/render/charts/size-chart.js';
import { utilizationChart } from '../../../src/render/charts/utilization-chart.js';
import { weekChart } from '../../../src/render/charts/week-chart.js';
import { caseView } from '../../../src/render/cost-document/case-view.js';
import { cashFlowBlock } from '../../../src/render/cost-document/cash-flow-block.js';
import { crossingBlock } from '../../../src/render/cost-document/crossing-block.js';
import { tornadoBlock } from '../../../src/render/cost-document/tornado-block.js';
import { valueBlock } from '../../../src/render/cost-document/value-block.js';
import { localeNumbers } from '../../../src/render/document/locale-numbers.js';
import { station } from '../../support/line-cell.js';
import { cases } from '../../support/size.js';
import { stored } from '../stored-results.js';
import { expectSound } from './drawings.js';

const SETTINGS = { numRuns: cases(60), seed: 20 };
const check = <T>(of: fc.Arbitrary<T>, holds: (value: T) => void): void =>
  fc.assert(fc.property(of, holds), SETTINGS);

const name = fc.constantFrom(
  'a',
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "='&amp;`",
  'w'.repeat(64),
  '車床一號',
  'e\u202Ename',
);
/** Small, large, zero, below zero. */
const amount = fc.oneof(
  fc.constantFrom(0, 1, -1, 1e-9, 1e12, -1e12),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
);
const positive = amount.map(Math.abs);
const interval = fc.tuple(amount, positive, positive, fc.boolean()).map(([mean, down, up, isKnown]) => ({
  mean,
  ciLow: isKnown ? mean - down : null,
  ciHigh: isKnown ? mean + up : null,
}));

describe('of weeks', () => {
  const pattern = stored('demo-shifts').patterns[2]!;

  test('losses', () => {
    const losses = fc.array(fc.record({ cause: name, partsPerWeek: amount }), { maxLength: 12 });
    check(fc.tuple(name, losses, positive, positive), ([called, list, ceiling, good]) => {
      const [ceilingPerWeek, partsPerWeek] = [{ total: ceiling }, { total: good }];
      expectSound(lossChart({ ...pattern, pattern: called, losses: list, ceilingPerWeek, partsPerWeek }));
    });
  });

  test('weeks', () => {
    const shift = fc.record({
      days: fc.subarray([...DAYS], { minLength: 1 }),
      startMin: fc.integer({ min: 0, max: 1439 }),
      lengthMin: fc.integer({ min: 1, max: 1440 }),
      attended: fc.boolean(),
    });
    const standstill = fc.record({
      cause: fc.constantFrom('rack empty', 'rack full', 'waits for operator'),
      station: name,
      stop: name,
      fromS: fc.double({ min: -604_800, max: 604_800, noNaN: true }),
      lastsS: fc.option(fc.double({ min: 0, max: 604_800, noNaN: true })),
    });
    const changeover = fc.record({ station: name, fromS: fc.nat(604_799), lastsS: fc.nat(604_800) });
    const week = fc.tuple(
      name,
      fc.array(shift, { maxLength: 4 }),
      fc.array(standstill, { maxLength: 4 }),
      fc.array(changeover, { maxLength: 4 }),
    );
    check(fc.array(week, { maxLength: 5 }), (list) => {
      const patterns = list.map(([called, shifts, stands, changes]) => {
        const rows = shifts.map(({ lengthMin, ...rest }) => ({
          ...rest,
          pattern: called,
          shift: 's',
          endMin: rest.startMin + lengthMin,
          breaks: [{ startMin: rest.startMin, endMin: rest.startMin + lengthMin / 2 }],
          operators: 1,
          labourPerH: 0,
        }));
        const { segments, ...hours } = weekCalendar(rows, called);
        const standstills = stands.map(({ lastsS, ...s }) => ({
          ...s,
          untilS: lastsS === null ? null : s.fromS + lastsS,
          from: 'Mon 00:00',
          until: lastsS === null ? null : 'Mon 01:00',
        })) as (typeof pattern)['standstills'];
        const changeovers = changes.map(({ lastsS, ...c }) => ({
          ...c,
          standsUntilS: c.fromS + lastsS,
          from: 'Mon 00:00',
          standsUntil: 'Mon 01:00',
        })) as unknown as (typeof pattern)['changeovers'];
        return { ...hours, week: segments, standstills, changeovers };
      });
      expectSound(weekChart(patterns));
    });
  });
});

describe('of cells', () => {
  const demo = stored('demo');
  const renamed = (called: string): ScheduleFound =>
    JSON.parse(JSON.stringify(demo).replaceAll('"lathe_1"', JSON.stringify(called))) as ScheduleFound;

  test('names in the multiple-activity chart and the utilization', () => {
    fc.assert(
      fc.property(name, (called) => {
        expectSound(multipleActivityChart(renamed(called)));
        expectSound(utilizationChart(renamed(called), null));
      }),
      { ...SETTINGS, numRuns: cases(8) },
    );
  });

  test('shares of time', () => {
    const share = fc.tuple(positive, positive, positive, positive);
    check(fc.array(share, { minLength: 1, maxLength: 6 }), (shares) => {
      const stations = shares.map(([processingS, handlingS, waitRobotS, emptyS], k) => ({
        station: `s${k}`,
        kind: 'machine',
        processingS,
        handlingS,
        waitRobotS,
        waitBusyS: waitRobotS,
        emptyS,
        utilizationPct: 0,
      }));
      expectSound(utilizationChart({ ...demo, stations }, null));
    });
  });

  test('places', () => {
    const at = fc.oneof(fc.constantFrom(0, 1), fc.double({ min: -1000, max: 1000, noNaN: true }));
    const names = [...new Set(demo.order.map((event) => event.station))];
    check(fc.array(fc.tuple(at, at), { minLength: names.length, maxLength: names.length }), (places) => {
      const stations = names.map((called, k) =>
        station(called, 'machine', { xM: places[k]![0], yM: places[k]![1] }),
      );
      expectSound(cellPlanChart({ stations }, demo));
    });
  });

  test('differences', () => {
    const pair = fc.record({ a: name, b: name, partsPerShift: interval, clear: fc.boolean() });
    check(fc.array(pair, { maxLength: 40 }), (differences) => {
      expectSound(cellDifferenceChart({ differences }));
    });
  });

  test('numbers of machines', () => {
    const size = stored('figures-size');
    const row = fc.record({
      partsPerShift: positive,
      costPerPart: fc.option(positive),
      contributionPerH: fc.option(amount),
      proven: fc.boolean(),
      simulated: fc.option(fc.record({ partsPerShift: interval, costPerPart: fc.option(interval) })),
    });
    check(fc.tuple(fc.array(row, { maxLength: 30 }), fc.boolean()), ([list, isRecommended]) => {
      const rows = list.map((r, k) => ({ ...size.rows[0]!, ...r, machines: k + 1 }));
      const recommended =
        isRecommended && rows.length > 0 ? { ...size.recommended!, machines: rows.length } : null;
      expectSound(sizeChart({ rows, recommended }, 'EUR'));
    });
  });
});

describe('of money', () => {
  const result = stored('demo-cost');
  const numbers = localeNumbers('de-DE', 'EUR');
  const viewOf = (more: Partial<CostCaseFound>) => caseView({ ...result, ...more }, numbers);

  test('cash flows', () => {
    const year = fc.tuple(amount, amount, amount);
    check(fc.tuple(name, fc.array(year, { minLength: 2, maxLength: 31 })), ([called, years]) => {
      const [harness, way, running] = [0, 1, 2].map((k) => years.map((y) => y[k]!));
      const increment = { ...result.increment, cashFlow: way!, runningPresentValue: running! };
      const [first, second] = result.alternatives;
      const alternatives = [
        { ...first!, cashFlow: harness! },
        { ...second!, cashFlow: way!, increment, name: called },
      ];
      expectSound(cashFlowBlock(viewOf({ alternatives, decision: called })));
    });
  });

  test('the tornado', () => {
    const bar = fc.record({ item: name, low: amount, high: amount, npvLow: amount, npvHigh: amount });
    check(fc.array(bar, { maxLength: 15 }), (tornadoOfChoice) => {
      expectSound(tornadoBlock(viewOf({ tornadoOfChoice })));
    });
  });

  test('the crossing', () => {
    const point = fc.record({ changeovers: positive, harness: positive, box: positive });
    check(fc.tuple(fc.array(point, { minLength: 1, maxLength: 22 }), positive), ([points, planned]) => {
      const sorted = [...points, { changeovers: planned, harness: 1, box: 1 }].sort(
        (a, b) => a.changeovers - b.changeovers,
      );
      const cumulativeCost = { points: sorted, crossing: sorted[0]!.changeovers };
      expectSound(crossingBlock(viewOf({ cumulativeCost, plannedChangeovers: planned }))!);
    });
  });

  test('the spread of the value', () => {
    check(fc.array(amount, { minLength: 1, maxLength: 200 }), (values) => {
      // A chart for some values only: those of one size.
      const sorted = values.map((value) => value % 1e6).sort((a, b) => a - b);
      const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]!;
      const pays = sorted.filter((value) => value > 0).length / sorted.length;
      const npv = {
        ...result.risk.npv,
        p10: at(0.1),
        p50: at(0.5),
        p90: at(0.9),
        histogram: histogram(sorted),
      };
      const riskOfChoice = { ...result.risk, trials: sorted.length, probabilityPays: pays, npv };
      expectSound(valueBlock(viewOf({ riskOfChoice })));
    });
  });
});

test('a chart that is drawn again is the same', () => {
  const demo = stored('demo');
  expect(multipleActivityChart(demo)).toEqual(multipleActivityChart(demo));
});
