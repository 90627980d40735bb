// The visit counts of independent machines against HiGHS: what a period can hold at most.
import { describe, expect, it } from 'vitest';
import { waysOf } from '../../../../src/core/schedule/plan/paths.js';
import { goalOf } from '../../../../src/core/schedule/plan/weights.js';
import { partSets } from '../../../../src/core/schedule/search/choose-counts.js';
import { highsSolve } from '../../../support/highs-line.js';
import { type UnlikeMachines, unlikeCell, unlikeMachines } from '../../../support/unlike-cells.js';

const MOST_VISITS = 24;

/** Most machine-cycle seconds in a period: each machine by its cycle and quickest exchange, the robot by its ways. */
function fullest(spec: UnlikeMachines, periodS: number): number {
  const n = spec.cycleS.length - 1;
  const machines = Array.from({ length: n }, (_, i) => i + 1);
  const sum = (value: (i: number) => number): string => machines.map((i) => `${value(i)} c${i}`).join(' + ');
  const movesS = (i: number): number =>
    spec.fetchS + spec.travel[0][i] + spec.loadS[i] + spec.unloadS[i] + spec.travel[i][n + 1] + spec.putS;
  const stationS = (i: number): number => spec.cycleS[i] + movesS(i) + spec.travel[n + 1][0];
  // With nothing in hand the robot comes from a machine or the outfeed, or it has stayed for the cycle.
  const wayS = (to: number): number =>
    Math.min(...[...machines, n + 1].map((from) => (from === to ? spec.cycleS[to] : spec.travel[from][to])));
  const robotS = (i: number): number => movesS(i) + wayS(0) + wayS(i);
  const rows = [
    ` robot: ${sum(robotS)} <= ${periodS}`,
    ` visits: ${sum(() => 1)} <= ${MOST_VISITS}`,
    ...machines.map((i) => ` m${i}: ${stationS(i)} c${i} <= ${periodS}`),
  ];
  const names = machines.map((i) => `c${i}`).join('\n ');
  const model = `Maximize\n obj: ${sum((i) => spec.cycleS[i])}\nSubject To\n${rows.join('\n')}\nGeneral\n ${names}\nEnd\n`;
  return highsSolve(model).ObjectiveValue;
}

describe('visit counts of six independent machines', () => {
  it('no counts yield more in the period of the first set', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const spec = unlikeMachines(seed, 6);
      const cell = unlikeCell(spec);
      const limits = { maxVisits: MOST_VISITS, partsPerPeriod: null };
      const { small, likely } = partSets(cell, waysOf(cell)!, goalOf(cell), limits);
      for (const { set } of [...small, ...likely])
        expect(set().visits, `seed ${seed}`).toBeLessThanOrEqual(MOST_VISITS);
      const first = likely[0].set();
      expect(first.value, `seed ${seed}`).toBeCloseTo(fullest(spec, first.boundS), 6);
    }
  });
});
