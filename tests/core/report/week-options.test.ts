// What a change adds to the week, worked out by hand from small results.
import { describe, expect, test } from 'vitest';
import { weekOptions } from '../../../src/core/report/week-options.js';

type Results = Parameters<typeof weekOptions>[0];

const week = (pattern: string, parts: number, contribution: number | null, unattendedH = 0) => ({
  pattern,
  partsPerWeek: { total: parts },
  contributionPerWeek: contribution,
  labourCostPerWeek: 500,
  hoursPerWeek: 40,
  shiftsPerWeek: 5,
  unattendedH,
});

const row = (machines: number, partsPerH: number, contributionPerH: number) => ({
  machines,
  machineNames: Array.from({ length: machines }, (_, k) => (k === 0 ? 'mill' : `mill#${k + 1}`)),
  partsPerH,
  contributionPerH,
  proven: machines === 1,
});

/** 50 parts an hour, 1,900 a week; 10 an hour of running cost, so 2,900 are earned before labour and running. */
const results = {
  cell: {
    parts: [],
    robot: { costPerH: 4 },
    stations: [
      { kind: 'machine', costPerH: 6 },
      { kind: 'infeed', costPerH: 0 },
    ],
  },
  schedule: {
    partsPerH: { total: 50 },
    rateBoundPerH: { goal: { of: 'contribution' } },
    whatIf: [
      { change: 'dual gripper', gainPerH: 5, goalGainPct: 10, proven: true },
      { change: 'simple sequence', gainPerH: -5, goalGainPct: -10, proven: true },
    ],
  },
  size: { rows: [row(1, 50, 40), row(2, 75, 55)] },
  shifts: {
    patterns: [week('day', 1900, 2000), week('night', 2500, 1800, 64)],
    best: { byContribution: 'day', byParts: 'night' },
  },
  patterns: { differences: [{ a: 'night', b: 'day', clear: false }] },
  comparison: {
    cells: [{ name: 'here' }, { name: 'there' }],
    incomparable: [],
    differences: [{ a: 'here', b: 'there', partsPerShift: { mean: -12 }, clear: true }],
  },
  costCase: {
    status: 'found',
    plannedChangeovers: 100,
    decision: 'a box on every machine',
    basis: 'before tax',
    horizonYears: 5,
    alternatives: [
      { name: 'move the harness', stations: [], increment: null },
      {
        name: 'a box on every machine',
        stations: ['mill'],
        increment: { annualEquivalent: 5200 },
        incrementAfterTax: null,
      },
    ],
    risk: { items: ['box_price'], probabilityPays: 0.8 },
    riskOfChoice: null,
  },
} as unknown as Results;

describe('a week that is known', () => {
  const { base, options } = weekOptions(results)!;
  const of = (what: RegExp) => options.find((option) => what.test(option.what))!;

  test('is the one with the most contribution', () => {
    expect(base.pattern).toBe('day');
  });

  test('a gripper adds its share of the parts, and of what is earned before labour and running costs', () => {
    expect(of(/dual gripper/)).toMatchObject({ partsPerWeek: 190, moneyPerWeek: 290 });
    expect(of(/dual gripper/).sure).toContain('proven');
    expect(options.map(({ what }) => what)).not.toContain('simple sequence');
  });

  test('another pattern stands with its own week, and whether chance leaves a difference', () => {
    expect(of(/night, 64 h unattended/)).toMatchObject({ partsPerWeek: 600, moneyPerWeek: -200 });
    expect(of(/night/).sure).toContain('no clear difference');
  });

  test('one more machine adds the difference of its rows', () => {
    expect(of(/one more machine like mill$/)).toMatchObject({ partsPerWeek: 950, moneyPerWeek: 600 });
  });

  test('a layout adds its simulated difference, whichever is named first', () => {
    expect(of(/layout there/)).toMatchObject({ partsPerWeek: 60, moneyPerWeek: null });
  });

  test('a layout that cannot be compared is left out', () => {
    const comparison = { ...results.comparison, differences: [] };
    const others = weekOptions({ ...results, comparison } as unknown as Results)!.options;
    expect(others.some(({ what }) => /layout/.test(what))).toBe(false);
    expect(others).toHaveLength(options.length - 1);
  });

  test('boxes add their equivalent annual value by the week, price included', () => {
    expect(of(/boxes|a box/)).toMatchObject({ partsPerWeek: null, moneyPerWeek: 100 });
    expect(of(/boxes|a box/).sure).toContain('pays in 80.0% of the trials');
  });
});

test('without shifts there is no week, and without contribution no money', () => {
  expect(weekOptions({ ...results, shifts: null })).toBeNull();
  const plain = week('day', 1900, null);
  const shifts = { patterns: [plain], best: { byContribution: null, byParts: 'day' } };
  const { options } = weekOptions({ ...results, shifts } as unknown as Results)!;
  expect(options.find(({ what }) => what === 'dual gripper')).toMatchObject({
    partsPerWeek: 190,
    moneyPerWeek: null,
  });
});
