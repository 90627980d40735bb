import { describe, expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import { lostContribution } from '../../../src/core/cost/lost-contribution.js';
import type { Cell } from '../../../src/core/model/cell.js';
import type { ScheduleEvent, ScheduleFound } from '../../../src/core/schedule/result.js';
import { changeoverRow, costCell, type ItemValue, PLAIN_ITEMS } from './support/cost-cell.js';

const pick = (station: string, part: string, step: number): ScheduleEvent => ({
  startS: 0,
  endS: 1,
  action: 'pick',
  station,
  part,
  step,
  hand: 1,
});

/** Two caps a period through mill, one of them twice at the lathe (steps 3 and 4); period 120 s. */
function schedule(waitS: number, bottleneck: readonly string[]): ScheduleFound {
  const events = [
    pick('mill', 'cap', 2),
    pick('mill', 'cap', 2),
    pick('lathe', 'cap', 3),
    pick('lathe', 'cap', 4),
    { ...pick('mill', 'cap', 2), action: 'place' as const },
  ];
  return {
    status: 'proven',
    periodS: 120,
    partsPerPeriod: { cap: 2 },
    partsPerH: { cap: 60, total: 60 },
    proven: true,
    boundS: 120,
    gapPct: 0,
    rateBoundPerH: { total: 60, perPart: { cap: 60 }, binding: [] },
    robot: { handlingS: 60, travelEmptyS: 0, travelLoadedS: 0, heldS: 0, waitS, utilizationPct: 50 },
    stations: [],
    events,
    holds: [],
    order: [],
    handsSwapEachRound: false,
    bottleneck: { text: '', stations: bottleneck, periods: 1, chain: [] },
    improvements: [],
    whatIf: [],
    searched: { nodes: 1, seconds: 0, complete: true },
    assumptions: [],
    warnings: [],
  };
}

function cellOf(items: Record<string, ItemValue> = {}, perShift: number | null = null): Cell {
  const cell = costCell({ ...PLAIN_ITEMS, ...items }, [
    changeoverRow('mill', 50),
    changeoverRow('lathe', 50),
  ]);
  const part = { part: 'cap', contribution: 2, perShift, ratio: null, yieldPct: 90 };
  const shift = {
    pattern: 'one',
    shift: 'early',
    days: ['Mon'] as const,
    startMin: 360,
    endMin: 840,
    breaks: [{ startMin: 600, endMin: 630 }],
    attended: true,
    operators: 1,
    labourPerH: 30,
  };
  return { ...cell, parts: [part], shifts: [shift] };
}

describe('what an hour of a standing machine is worth', () => {
  it('parts per hour by station, a part that stops twice counted once, and their good share', () => {
    const facts = lostContribution(cellOf(), schedule(10, ['mill']));
    expect(facts.partsPerHByStation).toEqual({ mill: 60, lathe: 30 });
    expect(facts.contributionPerMachineHByStation.mill).toBeCloseTo(60 * 2 * 0.9, 9);
    expect(facts.contributionPerMachineHByStation.lathe).toBeCloseTo(30 * 2 * 0.9, 9);
    expect(facts.bottleneckStations).toEqual(['mill']);
    expect(facts.robotIsBottleneck).toBe(false);
    expect(facts.because[0]).toBe(
      'mill sets the pace of 120.0 s, so only there an hour standing loses parts.',
    );
  });

  it('only the bottleneck loses contribution; where the robot is it, every machine does', () => {
    const saving = (found: ScheduleFound) => {
      const cell = cellOf();
      const result = costCase(cell, lostContribution(cell, found), { trials: 1 });
      if (result.status !== 'found') throw new Error(result.recommendation);
      return result.byStation.map((station) => station.contributionPerMin);
    };
    expect(saving(schedule(10, ['mill']))).toEqual([expect.closeTo(1.8, 9), 0]);
    expect(saving(schedule(0, ['mill']))).toEqual([expect.closeTo(1.8, 9), expect.closeTo(0.9, 9)]);
    expect(saving(schedule(10, []))).toEqual([0, 0]);
  });

  it('only while every part made is sold', () => {
    // 7.5 working hours x 60 parts x 90 % good = 405 a shift.
    const full = (items: Record<string, ItemValue>, perShift: number | null) =>
      lostContribution(cellOf(items, perShift), schedule(10, ['mill'])).orderBookFull;
    expect(full({}, null)).toBe(true);
    expect(full({}, 405)).toBe(true);
    expect(full({}, 404)).toBe(false);
    expect(full({ order_book_full: 'yes' }, 10)).toBe(true);
    expect(full({ order_book_full: 'no' }, null)).toBe(false);
  });

  it('a typed figure takes the place of the schedule, and machine_constrained that of the bottleneck', () => {
    const perMin = (items: Record<string, ItemValue>, facts: boolean) => {
      const cell = cellOf(items);
      const outcome = costCase(cell, facts ? lostContribution(cell, schedule(10, ['mill'])) : null, {
        trials: 1,
      });
      if (outcome.status !== 'found') throw new Error(outcome.recommendation);
      return outcome.byStation.map((station) => station.contributionPerMin);
    };
    expect(perMin({ contribution_per_machine_h: 60 }, true)).toEqual([1, 0]);
    expect(perMin({ contribution_per_machine_h: 60, machine_constrained: 'yes' }, false)).toEqual([1, 1]);
    expect(perMin({ contribution_per_machine_h: 60, machine_constrained: 'no' }, true)).toEqual([0, 0]);
    expect(perMin({}, false)).toEqual([0, 0]);
  });

  it('the case says why, in a sentence', () => {
    const cell = cellOf();
    const outcome = costCase(cell, lostContribution(cell, schedule(10, ['mill'])), { trials: 1 });
    if (outcome.status !== 'found') throw new Error(outcome.recommendation);
    expect(outcome.assumptions).toContain(
      'mill sets the pace of 120.0 s, so only there an hour standing loses parts.',
    );
    const bare = costCase(cell, null, { trials: 1 });
    if (bare.status !== 'found') throw new Error(bare.recommendation);
    expect(bare.warnings).toContain(
      'There is no schedule to say which machine sets the pace, so no contribution is counted as lost.',
    );
  });
});
