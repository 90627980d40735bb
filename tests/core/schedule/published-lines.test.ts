// Published lines and closed forms. Sources stand in the data files beside the values.
import { readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { evaluateOrder } from '../../../src/core/schedule/evaluate/evaluate-order.js';
import { buildPlan } from '../../../src/core/schedule/plan/plan.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import {
  lineCell,
  onlyPath,
  type PositionLine,
  type PublishedLine,
  positionCell,
} from '../../support/line-cell.js';
import { repeatedLine } from '../../support/repeated-line.js';
import { atSize } from '../../support/size.js';

const read = (kind: 'published' | 'recomputed', name: string) =>
  JSON.parse(readFileSync(new URL(`../../reference/${kind}/${name}.json`, import.meta.url), 'utf8'));
const onePart = { partsPerPeriod: 1, improvements: false, nodeLimit: 5_000_000 } as const;
const foundIn = (outcome: ReturnType<typeof bestSchedule>): ScheduleFound => {
  if (!('periodS' in outcome)) throw new Error('no schedule');
  return outcome;
};

describe('random line cells, agreed by MIP solvers and enumeration', () => {
  const cells: (PositionLine & { id: string })[] = read('recomputed', 'random-line-cells').cells;
  it.each(cells)('$id', (line) => {
    const outcome = bestSchedule(positionCell(line), onePart);
    if (line.periodS === null) {
      expect(outcome.status).toBe('infeasible');
      return;
    }
    const found = foundIn(outcome);
    expect(found.periodS).toBeCloseTo(line.periodS, 6);
    expect(found.partSet.proven).toBe(true);
  });
});

describe('lines whose least period is not whole', () => {
  const lines: PublishedLine[] = read('recomputed', 'fractional').lines;
  it.each(lines)('$stations stations, $period', (line) => {
    const found = foundIn(bestSchedule(lineCell(line), onePart));
    expect(found.periodS).toBeCloseTo(line.period, 6);
    expect(found.partSet.proven).toBe(true);
  });
});

describe('published benchmark lines', () => {
  const lines: (PublishedLine & { id: string })[] = read('published', 'chsp').lines;
  it.each(lines.filter((line) => line.stations <= atSize(12, 24)))('$id at $period', (line) => {
    const found = foundIn(bestSchedule(lineCell(line), onePart));
    expect(found.periodS).toBeCloseTo(line.period, 6);
    // The nodes of a standard search do not always suffice for the proof of the longest line.
    if (line.stations <= 12) expect(found.partSet.proven).toBe(true);
    expect(found.partSet.boundS).toBeLessThanOrEqual(line.period + 1e-6);
  });
});

test('the published double is the line in a row with itself, as the benchmark builds longer ones', () => {
  const [single, double]: (PublishedLine & { id: string })[] = read('published', 'chsp').lines;
  expect(double).toMatchObject(repeatedLine(single!, 2));
});

interface ClosedForm {
  metric: 'additive' | 'constant' | 'circular';
  m: number;
  order: string[];
  examples: { p: number[]; delta: number; eps: number; T: number }[];
}

/** A regular cell; in a circular one the load and unload place are one spot on a ring of m + 1. */
function regularCell(metric: ClosedForm['metric'], p: readonly number[], delta: number, eps: number) {
  const m = p.length;
  const cell = positionCell({
    machines: m,
    positions: Array.from({ length: m + 2 }, (_, i) => i),
    secondsPerUnit: delta,
    pickS: Array.from({ length: m + 1 }, () => eps),
    placeS: Array.from({ length: m + 1 }, () => eps),
    processS: p,
    longestStayS: p.map(() => null),
    periodS: 0,
  });
  if (metric === 'additive') return cell;
  const spots = new Map(cell.stations.map((s, i) => [s.name, i % (m + 1)]));
  const time = (from: string, to: string): number => {
    if (metric === 'constant') return delta;
    const apart = Math.abs(spots.get(from)! - spots.get(to)!);
    return delta * Math.min(apart, m + 1 - apart);
  };
  return {
    ...cell,
    travel: cell.travel.map((row) => ({
      ...row,
      emptyS: time(row.from, row.to),
      loadedS: time(row.from, row.to),
    })),
  };
}

describe('closed forms of regular cells of two and three machines', () => {
  const forms: ClosedForm[] = read('recomputed', 'robotic-cells').oneUnit;
  const cases = forms.flatMap((form) => form.examples.map((example) => ({ ...form, example })));
  it.each(cases)('$metric $order: $example.T', ({ metric, m, order, example }) => {
    const cell = regularCell(metric, example.p, example.delta, example.eps);
    const plan = buildPlan(cell, onlyPath(cell));
    const kinds = order.flatMap((move) => plan.carries[Number(move.slice(1))].events);
    const result = evaluateOrder(plan, kinds);
    expect(result).toMatchObject({ feasible: true });
    expect((result as { periodS: number }).periodS).toBeCloseTo(example.T, 9);
    expect(m).toBe(example.p.length);
  });

  it.each(['additive', 'constant', 'circular'] as const)(
    'the best order is the least of all forms: %s',
    (metric) => {
      const own = forms.filter((form) => form.metric === metric && form.m === 3);
      for (const example of own.flatMap((form) => form.examples)) {
        const cell = regularCell(metric, example.p, example.delta, example.eps);
        const plan = buildPlan(cell, onlyPath(cell));
        const periods = own.map((form) => {
          const result = evaluateOrder(
            plan,
            form.order.flatMap((move) => plan.carries[Number(move.slice(1))].events),
          );
          return result.feasible ? result.periodS : Number.POSITIVE_INFINITY;
        });
        expect(foundIn(bestSchedule(cell, onePart)).periodS).toBeCloseTo(Math.min(...periods), 9);
      }
    },
  );
});

describe('several parts per period and two hands', () => {
  const data = read('recomputed', 'robotic-cells');
  it('a three-part cycle beats one- and two-part cycles', () => {
    const example = data.kUnit[0];
    const cell = regularCell('additive', example.p, example.delta, example.eps);
    const per = (parts: number): number =>
      foundIn(bestSchedule(cell, { partsPerPeriod: parts, improvements: false })).periodS / parts;
    expect(per(1)).toBeCloseTo(example.best1unit, 9);
    expect(per(2)).toBeCloseTo(example.best2unitPerPart, 9);
    expect(per(3)).toBeCloseTo(example.best3unitPerPart, 9);
    // Unasked, the best of them is taken, or a better one: a cycle of four parts is proven against every sequence.
    const best = foundIn(bestSchedule(cell));
    expect(best.periodS / best.partsPerPeriod.part).toBeLessThan(example.best3unitPerPart);
    expect(best.proven).toBe(true);
    expect(per(4)).toBeCloseTo(best.periodS / best.partsPerPeriod.part, 9);
  });

  it('two hands reach the swap cycle', () => {
    const example = data.dualGripper[0];
    const single = regularCell('additive', example.p, example.delta, example.eps);
    const dual = { ...single, robot: { ...single.robot, hands: 2 as const, indexS: example.theta } };
    expect(foundIn(bestSchedule(single, onePart)).periodS).toBeCloseTo(example.bestSingle1unit, 9);
    expect(foundIn(bestSchedule(dual, onePart)).periodS).toBeCloseTo(example.bestDual1unit, 9);
  });
});
