/** Properties that hold for every cell: no part is lost, no second is lost, the same seed gives the same run. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { type ReplicationSetup, runReplication } from '../../../src/core/floor/floor-run.js';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { SLOT_STATES } from '../../../src/core/floor/slot-state.js';
import type { Cell, Step } from '../../../src/core/model/cell.js';
import { cases } from '../../support/size.js';
import { cellOf, ROBOT, station, step } from './cells.js';

const MACHINES = ['a', 'b', 'c', 'd', 'e'];

/** Routes over machines, benches with room for several, held stations, occasional steps, fixtures. */
const middleStep: fc.Arbitrary<Partial<Step> & { stations: string[] }> = fc
  .record({
    stations: fc.uniqueArray(fc.constantFrom(...MACHINES), { minLength: 1, maxLength: 3 }),
    cycleS: fc.integer({ min: 0, max: 200 }),
    loadS: fc.integer({ min: 0, max: 9 }),
    unloadS: fc.integer({ min: 0, max: 9 }),
    partsPerCycle: fc.constantFrom(1, 1, 1, 2),
    everyParts: fc.constantFrom(1, 1, 1, 3),
    maxWaitS: fc.constantFrom(null, 20),
  })
  .map((s) => s);

const routeSteps = fc.array(fc.oneof({ weight: 5, arbitrary: middleStep }, fc.constant('held' as const)), {
  minLength: 1,
  maxLength: 4,
});

const cells: fc.Arbitrary<Cell> = fc
  .record({
    routes: fc.array(routeSteps, { minLength: 1, maxLength: 2 }),
    capacities: fc.array(fc.constantFrom(1, 1, 2, 4), { minLength: 5, maxLength: 5 }),
    door: fc.constantFrom(0, 3),
    rack: fc.constantFrom(null, 6),
    hands: fc.constantFrom(1 as const, 2 as const),
    travelS: fc.integer({ min: 1, max: 6 }),
    mtbfH: fc.constantFrom(null, 0.3),
    scatter: fc.boolean(),
    stop: fc.boolean(),
    yieldPct: fc.constantFrom(100, 90),
    ratio: fc.boolean(),
  })
  .map((r) =>
    cellOf({
      stations: [
        station('in', 'infeed', { capacityParts: r.rack }),
        ...MACHINES.map((name, i) =>
          station(name, i === 3 ? 'bench' : i === 4 ? 'buffer' : 'machine', {
            capacityParts: r.capacities[i]!,
            readyS: i === 0 ? r.door : 0,
            closeS: i === 1 ? r.door : 0,
            mtbfH: i < 2 ? r.mtbfH : null,
            mttrMin: i < 2 && r.mtbfH !== null ? 4 : null,
          }),
        ),
        station('brush', 'held'),
        station('out', 'outfeed', { capacityParts: r.rack }),
      ],
      routes: r.routes.map((steps, i) => ({
        part: `p${i}`,
        steps: [
          step(1, ['in'], { unloadS: 2 }),
          ...steps.map((s, k) =>
            s === 'held' ? step(k + 2, ['brush'], { cycleS: 7, loadS: 1 }) : step(k + 2, s.stations, s),
          ),
          step(99, ['out'], { loadS: 2 }),
        ],
      })),
      robot: {
        ...ROBOT,
        hands: r.hands,
        indexS: r.hands === 2 ? 2 : 0,
        travelS: r.travelS,
        attendedSpeedPct: 50,
      },
      parts: r.routes.map((_, i) => ({
        part: `p${i}`,
        contribution: null,
        perShift: null,
        ratio: r.ratio ? i + 1 : null,
        yieldPct: r.yieldPct,
      })),
      stops: r.stop
        ? [
            { station: 'a', name: 'tool', everyParts: 7, everyH: null, minutes: 3, operator: true },
            { station: 'b', name: 'wipe', everyParts: null, everyH: 0.2, minutes: 1, operator: false },
            { station: 'in', name: 'refill', everyParts: 11, everyH: null, minutes: 2, operator: true },
          ]
        : [],
      variation: r.scatter
        ? [
            { station: '*', element: 'cycle', distribution: 'gamma', parameters: [50, 6] },
            { station: '*', element: 'travel', distribution: 'triangular', parameters: [2, 3, 5] },
            { station: 'a', element: 'load', distribution: 'lognormal', parameters: [5, 2] },
            { station: '*', element: 'response', distribution: 'exponential', parameters: [2] },
          ]
        : [],
    }),
  );

const setups: fc.Arbitrary<ReplicationSetup> = fc.record({
  program: fc.constantFrom('first' as const, 'nearest' as const, 'longest' as const),
  plan: fc.constant(null),
  calendar: fc.constantFrom(
    null,
    openCalendar([
      { startS: 0, endS: 2000, attended: true },
      { startS: 2000, endS: 2500, attended: true, operators: 0 },
      { startS: 4000, endS: 9000, attended: false },
    ]),
  ),
  operators: fc.constantFrom(1, 2),
  seed: fc.nat(1000),
  warmupS: fc.constantFrom(0, 1234.5),
  shiftsS: fc.constant([3000, 3001.25, 5000]),
});

describe('on random cells', () => {
  it('parts in = parts out + parts inside, and every slot and the robot account for all the time', () => {
    let busy = 0;
    fc.assert(
      fc.property(cells, setups, (cell, setup) => {
        const compiled = compileCell(cell);
        const r = runReplication(compiled, setup, 0);
        const total = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0);
        expect(r.insideAtStart + total(r.started)).toBe(
          r.insideAtEnd + total(r.good) + total(r.scrap) + total(r.late),
        );
        expect(total(r.goodByShift)).toBe(total(r.good));
        expect(Math.abs(total(r.robotS) - r.countedS)).toBeLessThan(1e-6);
        for (let s = 0; s < compiled.stationCount; s++) {
          const slots = compiled.firstSlot[s + 1]! - compiled.firstSlot[s]!;
          const states = r.stationS.slice(s * SLOT_STATES, (s + 1) * SLOT_STATES);
          expect(Math.abs(total(states) - slots * r.countedS)).toBeLessThan(1e-6);
          for (const v of states) expect(v).toBeGreaterThanOrEqual(-1e-9);
        }
        for (const v of r.robotS) expect(v).toBeGreaterThanOrEqual(-1e-9);
        if (total(r.good) > 0) busy++;
      }),
      { numRuns: cases(300), seed: 11 },
    );
    // The property means something only where cells really run.
    expect(busy).toBeGreaterThan((2 / 3) * cases(300));
  });

  it('one seed gives one run, and a split of the counted time changes no total', () => {
    fc.assert(
      fc.property(cells, setups, (cell, setup) => {
        const compiled = compileCell(cell);
        const a = runReplication(compiled, setup, 3);
        expect(runReplication(compileCell(cell), setup, 3)).toEqual(a);
        const whole = runReplication(compiled, { ...setup, shiftsS: [11001.25] }, 3);
        expect(whole.good).toEqual(a.good);
        for (const [i, v] of whole.stationS.entries())
          expect(Math.abs(v - a.stationS[i]!)).toBeLessThan(1e-6);
        for (const [i, v] of whole.robotS.entries()) expect(Math.abs(v - a.robotS[i]!)).toBeLessThan(1e-6);
      }),
      { numRuns: cases(100), seed: 12 },
    );
  });

  it('a robot with a free choice of stations never locks up, fixtures apart', () => {
    fc.assert(
      fc.property(cells, setups, (cell, setup) => {
        const single: Cell = {
          ...cell,
          routes: cell.routes.map((route) => ({
            ...route,
            steps: route.steps.map((s) => ({ ...s, partsPerCycle: 1 })),
          })),
        };
        expect(runReplication(compileCell(single), setup, 0).deadlock).toBeNull();
      }),
      { numRuns: cases(300), seed: 13 },
    );
  });
});
