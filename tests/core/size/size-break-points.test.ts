// Where the number of machines to choose changes: against the synchronous round worked by hand, and by sizing anew on
// both sides of every change.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { scheduleAgain } from '../../../src/core/schedule/best-schedule.js';
import type { SizeOptions } from '../../../src/core/size/grown-cell.js';
import type { IdenticalMachines } from '../../../src/core/size/identical-machines.js';
import {
  BRACKET_SHARE,
  type BreakSide,
  firstChange,
  type SizeBreakPoint,
} from '../../../src/core/size/size-break-points.js';
import { sizeCell } from '../../../src/core/size/size-cell.js';
import { sizeSearch } from '../../../src/core/size/size-search.js';
import { atSize, deepTest } from '../../support/size.js';

const FIGURES: IdenticalMachines = { cycleS: 104, loadS: 12, unloadS: 10, travelS: 4 };

const size = (identical: IdenticalMachines, more: Partial<SizeOptions> = {}) =>
  sizeCell({ identical, maxMachines: 4, again: scheduleAgain, ...more } as SizeOptions, sizeSearch(null));

const point = (points: readonly SizeBreakPoint[], element: string): SizeBreakPoint =>
  points.find((p) => p.element === element)!;

const plain = size(FIGURES);

describe('against the round worked by hand', () => {
  // The robot needs 38 s a part, a machine 138 s; with n machines the round is the longer of 138 and 38 n.
  test('by waiting: four wait 5% when 152 s is 5% above the machine, three when 114 s is', () => {
    const { breakPoints, recommended } = plain;
    expect(recommended!.machines).toBe(3);
    const cycle = point(breakPoints, 'cycle');
    expect(cycle).toMatchObject({ value: 104, unit: 's', fromPct: -50, toPct: 100 });
    expect(cycle.above!.machines).toBe(4);
    expect(Math.abs(cycle.above!.value! - (0.95 * 152 - 34))).toBeLessThan(104 * BRACKET_SHARE);
    expect(cycle.below!.machines).toBe(2);
    expect(Math.abs(cycle.below!.value! - (0.95 * 114 - 34))).toBeLessThan(104 * BRACKET_SHARE);
    const allowed = point(breakPoints, 'allowed waiting');
    expect(allowed.below).toBeNull();
    expect(Math.abs(allowed.above!.value! - (100 * 14) / 152)).toBeLessThan(5 * BRACKET_SHARE);
    expect(allowed.above!.machines).toBe(4);
  });

  test('by contribution: the fourth machine pays when its parts earn its hour', () => {
    const short = { ...FIGURES, cycleS: 84, contributionPerPart: 1 };
    const r = size({ ...short, machineCostPerH: 20 });
    expect(r.recommended!.machines).toBe(3);
    // The fourth brings 3600/38 - 3 * 3600/118 = 3.21 parts an hour for 20; the third 3600/118 = 30.51.
    expect(point(r.breakPoints, 'contribution').above).toBeNull();
    const machine = point(r.breakPoints, 'machine cost');
    expect(machine.below).toBeNull();
    expect(machine.above!.machines).toBe(1);
    expect(Math.abs(machine.above!.value! - 3600 / 118)).toBeLessThan(20 * BRACKET_SHARE);
    const paying = size({ ...short, machineCostPerH: 5 });
    const cheaper = point(paying.breakPoints, 'machine cost').below!;
    expect(cheaper.machines).toBe(4);
    expect(Math.abs(cheaper.value! - (3600 / 38 - (3 * 3600) / 118))).toBeLessThan(5 * BRACKET_SHARE);
    expect(r.breakPoints.map((p) => p.element)).not.toContain('labour');
  });
});

/** The figures with one input changed by a percentage. */
function changed(figures: IdenticalMachines, element: string, pct: number): IdenticalMachines {
  const factor = 1 + pct / 100;
  const key = {
    cycle: 'cycleS',
    load: 'loadS',
    unload: 'unloadS',
    travel: 'travelS',
    contribution: 'contributionPerPart',
    'machine cost': 'machineCostPerH',
    'robot cost': 'robotCostPerH',
    labour: 'labourPerH',
  }[element] as keyof IdenticalMachines;
  return { ...figures, [key]: (figures[key] as number) * factor };
}

deepTest('sizing anew on both sides of every change gives the two numbers', () => {
  const seconds = fc.integer({ min: 2, max: 40 });
  let sure = 0;
  fc.assert(
    fc.property(
      fc.integer({ min: 60, max: 400 }),
      seconds,
      seconds,
      seconds,
      fc.integer({ min: 1, max: 30 }),
      fc.constantFrom(1 as const, 2 as const),
      (cycleS, loadS, unloadS, travelS, machineCostPerH, hands) => {
        const figures: IdenticalMachines = {
          ...{ cycleS, loadS, unloadS, travelS, machineCostPerH, hands },
          indexS: 2,
          contributionPerPart: 1,
          labourPerH: 20,
        };
        const most = { maxMachines: atSize(3, 4, 6) };
        const { recommended, breakPoints, rows } = size(figures, most);
        const anew = (element: string, pct: number) =>
          size(changed(figures, element, pct), { ...most, sensitivity: false });
        for (const { element, below, above } of breakPoints)
          for (const side of [below, above].filter((s): s is BreakSide => s !== null)) {
            const [same, other] = [side.sameAtPct, side.changePct].map((pct) => anew(element, pct));
            // Searches that come to their limits may find one order here and a better one there.
            if (side.proven && [rows, same!.rows, other!.rows].flat().every((row) => row.proven)) {
              sure++;
              expect(same!.recommended!.machines, element).toBe(recommended!.machines);
              expect(other!.recommended!.machines, element).toBe(side.machines);
            }
            expect(side.machines).not.toBe(recommended!.machines);
            expect(Math.abs(side.changePct - side.sameAtPct)).toBeLessThanOrEqual(100 * BRACKET_SHARE);
          }
      },
    ),
    { numRuns: atSize(1, 2, 6) },
  );
  expect(sure).toBeGreaterThan(0);
});

describe('what tips the choice, in a sentence', () => {
  test('the nearest change of all', () => {
    expect(plain.tipping).toBe(
      'Most sensitive input: machine cycle time. At 6.2% longer (110.4 s): 4 machines.',
    );
  });

  test('nothing, where no input does within its limits', () => {
    const rich = size({ ...FIGURES, contributionPerPart: 1000 }, { maxMachines: 2 });
    expect(rich.tipping).toBe('No input alone changes the choice, each tried from -50% to +100%.');
    expect(rich.breakPoints.every((p) => p.below === null && p.above === null)).toBe(true);
  });

  test('nothing is said where it was not asked', () => {
    expect(size(FIGURES, { sensitivity: false })).toMatchObject({ breakPoints: [], tipping: null });
  });
});

describe('the first change', () => {
  test('is the nearest of several, and lies between two answers', () => {
    const isSame = (factor: number): boolean => factor < 1.3 || factor > 1.5;
    const found = firstChange(isSame, [1.1, 1.35, 2])!;
    expect(found.same).toBeLessThan(1.3);
    expect(found.changed).toBeGreaterThanOrEqual(1.3);
    expect(found.changed - found.same).toBeLessThanOrEqual(BRACKET_SHARE);
  });

  test('is none where all answers are the same', () => {
    expect(firstChange(() => true, [0.9, 0.5])).toBeNull();
  });
});
