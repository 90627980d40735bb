// The scheduler and its rate bound against HiGHS, an outside solver.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../../src/core/schedule/bound/rate-bound.js';
import { highsPeriod, highsSolve } from '../../support/highs-line.js';
import { randomSerial, serialCell } from '../../support/random-cells.js';
import { cases } from '../../support/size.js';

const options = { partsPerPeriod: 1, improvements: false, nodeLimit: 5_000_000 } as const;

describe('random cells by HiGHS', () => {
  it.each([3, 4, 5, 6])('%i machines, no limits on waiting', (machines) => {
    for (let seed = 1; seed <= cases(16); seed++) {
      const serial = randomSerial({ machines, seed: 500 + seed });
      const outcome = bestSchedule(serialCell(serial), options);
      expect('partSet' in outcome && outcome.partSet.proven).toBe(true);
      expect('periodS' in outcome && outcome.periodS).toBeCloseTo(highsPeriod(serial)!, 4);
    }
  });

  it.each([2, 3, 4, 5, 6])('%i machines with longest waits, feasible or not', (machines) => {
    let infeasible = 0;
    for (let seed = 1; seed <= cases(22); seed++) {
      const serial = randomSerial({ machines, seed: 900 + seed, waitPct: 80, waitToS: 25 });
      const outcome = bestSchedule(serialCell(serial), options);
      const reference = highsPeriod(serial);
      if (reference === null) {
        infeasible++;
        expect(outcome.status, `seed ${seed}`).toBe('infeasible');
      } else {
        expect('partSet' in outcome && outcome.partSet.proven, `seed ${seed}`).toBe(true);
        expect('periodS' in outcome && outcome.periodS, `seed ${seed}`).toBeCloseTo(reference!, 4);
      }
    }
    expect(infeasible).toBeLessThan(22);
  });
});

/** The rate bound of a serial one-hand cell written out anew: parts x, empty trips y and waits s at a machine, per second. */
function serialRateModel(cell: ReturnType<typeof randomSerial>): string {
  const n = cell.processS.length - 1;
  const places = cell.travel.map((_, i) => i);
  const robot: string[] = [];
  const work = places
    .slice(0, -1)
    .reduce((sum, i) => sum + cell.pickS[i] + cell.travel[i][i + 1] + cell.placeS[i + 1], 0);
  robot.push(`${work} x`);
  const rows: string[] = [];
  for (const a of places) {
    const others = places.filter((b) => b !== a);
    for (const b of others) robot.push(`${cell.travel[a][b]} y${a}_${b}`);
    if (a > 0 && a <= n) robot.push(`${cell.processS[a]} s${a}`);
    const stay = a > 0 && a <= n ? ` + s${a}` : '';
    // Before each pick the robot comes with nothing in hand, after each place it goes so, or it waits for the part.
    if (a <= n) rows.push(` to${a}: ${others.map((b) => `y${b}_${a}`).join(' + ')}${stay} - x = 0`);
    else rows.push(` to${a}: ${others.map((b) => `y${b}_${a}`).join(' + ')} = 0`);
    if (a > 0) rows.push(` from${a}: ${others.map((b) => `y${a}_${b}`).join(' + ')}${stay} - x = 0`);
    else rows.push(` from${a}: ${others.map((b) => `y${a}_${b}`).join(' + ')} = 0`);
  }
  for (let i = 1; i <= n; i++) {
    // Quickest exchange: carry on, come back for the part before, bring it.
    const exchange =
      cell.travel[i][i + 1] +
      cell.placeS[i + 1] +
      cell.travel[i + 1][i - 1] +
      cell.pickS[i - 1] +
      cell.travel[i - 1][i];
    rows.push(` st${i}: ${cell.placeS[i] + cell.processS[i] + cell.pickS[i] + exchange} x <= 1`);
  }
  return `Maximize\n obj: x\nSubject To\n robot: ${robot.join(' + ')} <= 1\n${rows.join('\n')}\nEnd\n`;
}

describe('the rate bound by HiGHS', () => {
  it('agrees on serial cells, and no schedule beats it', () => {
    for (let seed = 1; seed <= cases(40); seed++) {
      const serial = randomSerial({ machines: 2 + (seed % 6), seed: 2000 + seed });
      const cell = serialCell(serial);
      const bound = rateBound(cell);
      expect(bound.found).toBe(true);
      const reference = highsSolve(serialRateModel(serial)).ObjectiveValue * 3600;
      expect(bound.found && bound.total).toBeCloseTo(reference, 5);
      const outcome = bestSchedule(cell, options);
      expect('partsPerH' in outcome && outcome.partsPerH.total).toBeLessThanOrEqual(reference + 1e-6);
    }
  });

  it('names what binds', () => {
    const serial = randomSerial({ machines: 3, seed: 1, longestCycleS: 0 });
    const slow: Cell = serialCell({ ...serial, processS: [0, 0, 900, 0] });
    const bound = rateBound(slow);
    expect(bound.found && bound.binding).toEqual(['m2']);
    const quick = rateBound(serialCell(serial));
    expect(quick.found && quick.binding).toEqual(['robot']);
  });
});
