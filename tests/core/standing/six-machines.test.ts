// What moves the value of boxes a little and must not move it much, on the cell of six machines in data/: a second of
// travel, a part of demand, the price of a box; and the same boxes by the floor's own weeks as `shifts` runs them.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import type { CostCaseFound } from '../../../src/core/cost/result.js';
import type { WayMinutes } from '../../../src/core/cost/way-minutes.js';
import { setupWays } from '../../../src/core/jobs/setup-ways.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { shiftYield } from '../../../src/core/shifts/shift-yield.js';
import { standingHours } from '../../../src/core/standing/standing-hours.js';
import { readCell } from '../../../src/tables/read-cell.js';
import { isLong } from '../../support/size.js';

const folder = new URL('../../../data/six-machines/', import.meta.url);
const tables = Object.fromEntries(
  readdirSync(folder).map((name) => [name, readFileSync(new URL(name, folder), 'utf8')]),
);

interface Worked {
  readonly cell: Cell;
  readonly schedule: ScheduleFound;
  readonly result: CostCaseFound;
}

function worked(changed: Readonly<Record<string, string>> = {}): Worked {
  const cell = readCell({ ...tables, ...changed });
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('order' in schedule)) throw new Error(schedule.reason);
  const result = costCase(cell, standingHours(cell, schedule), { trials: 1 });
  if (result.status !== 'found') throw new Error(result.recommendation);
  return { cell, schedule, result };
}

const travelling = (seconds: number) =>
  worked({ 'robot.csv': `setting,value\nhands,1\ntravel_s,${seconds}\ncost_per_h,7\n` }).result;
const asking = (bushes: number) =>
  worked({ 'parts.csv': tables['parts.csv']!.replace('bush,1.9,400', `bush,1.9,${bushes}`) }).result;

/** Present value of the boxes' saving, before what they cost. */
const gross = ({ increment }: CostCaseFound) => increment.npv - increment.cashFlow[0]!;

describe.runIf(isLong)('six machines', () => {
  it('a second more of travel moves the saving by no more than its share of the cycle, and turns no choice', () => {
    const [six, seven] = [travelling(6), travelling(7)];
    // The cell makes 67.9 and 64.9 parts an hour: a second in six slows it by a twentieth.
    expect(Math.abs(gross(seven) / gross(six) - 1)).toBeLessThan(0.05);
    expect(seven.decision).toBe(six.decision);
    expect(seven.selection.stations).toEqual(six.selection.stations);
  });

  it('one bush more asked for adds at most what its sale brings, where the demand begins to be met', () => {
    // The floor makes 128.98 bushes a shift without moves of the harness and 127.60 with them.
    const years = [127, 128, 129, 130].map((bushes) => asking(bushes).standing.harnessPerYear.counted);
    for (let k = 1; k < years.length; k++) {
      const more = years[k]! - years[k - 1]!;
      expect(more).toBeGreaterThanOrEqual(-1e-6);
      expect(more).toBeLessThanOrEqual(1.9 * 5 * 52 + 1e-6);
    }
    expect(years[3]! - years[0]!).toBeGreaterThan(300);
  });

  it('the floor saves by the boxes what `shifts` makes more with them', () => {
    const { cell, schedule, result } = worked();
    const pattern = result.standing.pattern!;
    const { parts } = cell;
    const sold = (ways: Readonly<Record<string, WayMinutes>>) => {
      const { partsPerWeek } = shiftYield(cell, schedule, pattern, { ways, program: 'order', losses: false });
      return parts.reduce(
        (sum, row) => sum + row.contribution! * Math.min(partsPerWeek[row.part]!, 5 * row.perShift!),
        0,
      );
    };
    const saved =
      52 * (sold(setupWays(cell, result, {}, 'case')) - sold(setupWays(cell, result, {}, 'harness')));
    const { setOnFloor } = result.standing;
    expect(setOnFloor!.floorPerYear).toBeCloseTo(saved, 6);
    // Machine by machine the same boxes are worth within a quarter of that.
    expect(Math.abs(setOnFloor!.countedPerYear / saved - 1)).toBeLessThan(0.25);
  });
});
