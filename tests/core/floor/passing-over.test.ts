/** The sequence that passes over what stands: it takes parts up out of turn, and must never lock the cell up by that. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { floorSetup } from '../../../src/core/floor/floor-job.js';
import { runReplication } from '../../../src/core/floor/floor-run.js';
import type { Program } from '../../../src/core/floor/robot.js';
import type { Cell, Part, PlannedStop } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { cases } from '../../support/size.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const stop = (name: string, of: Partial<PlannedStop>): PlannedStop => ({
  ...{ station: name, name: 'stop', everyParts: null, everyH: null, minutes: 5, operator: false },
  ...of,
});

interface Shop {
  readonly hands: 1 | 2;
  readonly cyclesS: readonly [number, number];
  readonly washS: readonly [number, number];
  /** The second part is washed before its machine, and after it. */
  readonly twice: boolean;
  readonly room: number;
  readonly stops: readonly PlannedStop[];
}

/** Two parts, each with a machine of its own, and a washer that both need. */
function washShop({ hands, cyclesS, washS, twice, room, stops }: Shop): Cell {
  const parts: Part[] = ['hub', 'lever'].map((part) => ({
    ...{ part, contribution: 1, perShift: null, ratio: null, yieldPct: 100 },
  }));
  const wash = (n: number, cycleS: number) => step(n, ['washer'], { cycleS, loadS: 4, unloadS: 4 });
  return cellOf({
    stations: [
      station('rack', 'infeed'),
      station('lathe', 'machine', { readyS: 2, closeS: 2 }),
      station('mill', 'machine', { readyS: 3, closeS: 3 }),
      station('washer', 'bench', { capacityParts: room }),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'hub',
        steps: [
          step(1, ['rack'], { unloadS: 4 }),
          step(2, ['lathe'], { cycleS: cyclesS[0], loadS: 9, unloadS: 8 }),
          wash(3, washS[0]),
          step(4, ['good'], { loadS: 4 }),
        ],
      },
      {
        part: 'lever',
        steps: [
          step(1, ['rack'], { unloadS: 5 }),
          ...(twice ? [wash(2, washS[0])] : []),
          step(3, ['mill'], { cycleS: cyclesS[1], loadS: 11, unloadS: 9 }),
          wash(4, washS[1]),
          step(5, ['good'], { loadS: 4 }),
        ],
      },
    ],
    robot: { ...ROBOT, hands, indexS: hands === 2 ? 2 : 0, travelS: 3 },
    parts,
    stops: [...stops],
  });
}

function madeIn(cell: Cell, program: Program, hours: number): { parts: number; deadlock: string | null } {
  const schedule = bestSchedule(cell, { improvements: false, nodeLimit: 2000 });
  if (!('order' in schedule)) throw new Error(schedule.status);
  const { compiled, setup } = floorSetup({
    ...{ cell, program, order: schedule, operators: 1, seed: 1 },
    ...{ changeovers: null, runsOut: false, openSpans: null },
  });
  const { good, deadlock } = runReplication(compiled, { ...setup, warmupS: 0, shiftsS: [hours * 3600] }, 0);
  return { parts: good.reduce((sum, n) => sum + n, 0), deadlock };
}

describe('passing over what stands', () => {
  it('two hands go on after a stop of the washer that both parts need', () => {
    const stops = [
      stop('lathe', { everyParts: 150, minutes: 4 }),
      stop('mill', { everyParts: 120 }),
      stop('washer', { everyH: 2, minutes: 15 }),
    ];
    const shop: Shop = { hands: 2, cyclesS: [190, 260], washS: [45, 60], twice: false, room: 1, stops };
    const { parts, deadlock } = madeIn(washShop(shop), 'order', 24);
    expect(deadlock).toBeNull();
    // Two hours and a quarter of which the washer stands; 28.6 an hour is what both machines make without the robot.
    expect(parts).toBeGreaterThan(0.85 * 24 * 28.6 * (2 / 2.25));
  });

  it('waits for a stopped machine into which the part in hand has to go', () => {
    const stops = ['lathe', 'mill'].map((name) => stop(name, { everyParts: 5, minutes: 4 }));
    const shop: Shop = { hands: 2, cyclesS: [60, 75], washS: [20, 20], twice: false, room: 1, stops };
    const [passing, strict] = (['order', 'strict'] as const).map((program) =>
      madeIn(washShop(shop), program, 40),
    );
    expect(passing!.deadlock).toBeNull();
    expect(passing!.parts).toBeGreaterThan(0.98 * strict!.parts);
  });

  it('leaves a machine that stops while the robot waits at it, though nothing else happens meanwhile', () => {
    const turned = (part: string, machine: string, cycleS: number) => ({
      part,
      steps: [
        step(1, ['rack'], { unloadS: 4 }),
        step(2, [machine], { cycleS, loadS: 5, unloadS: 5 }),
        step(3, ['good'], { loadS: 4 }),
      ],
    });
    const cell = cellOf({
      stations: ['rack', 'lathe', 'mill', 'good'].map((name, i) =>
        station(name, i === 0 ? 'infeed' : i === 3 ? 'outfeed' : 'machine'),
      ),
      routes: [turned('hub', 'lathe', 100), turned('lever', 'mill', 60)],
      robot: { ...ROBOT, hands: 1, indexS: 0, travelS: 3 },
      parts: ['hub', 'lever'].map((part) => ({
        ...{ part, contribution: 1, perShift: null, ratio: 1, yieldPct: 100 },
      })),
      stops: [stop('lathe', { everyParts: 5, minutes: 30 })],
    });
    // The mill is done long before the lathe. One part of it takes 60 s, and 27 s from its finish until it is loaded
    // again: 20 in half an hour. Five of the lathe's take 127 s each, so it stands some 58 times in 40 hours.
    expect(madeIn(cell, 'order', 40).parts).toBeGreaterThan(50 * (20 + 5 + 5));
  });

  const shops = fc.record({
    hands: fc.constantFrom(1 as const, 2 as const, 2 as const),
    cyclesS: fc.tuple(fc.integer({ min: 20, max: 300 }), fc.integer({ min: 20, max: 300 })),
    washS: fc.tuple(fc.integer({ min: 5, max: 90 }), fc.integer({ min: 5, max: 90 })),
    twice: fc.boolean(),
    room: fc.constantFrom(1, 1, 2),
    stops: fc.array(
      fc.record({
        at: fc.constantFrom('lathe', 'mill', 'washer', 'rack', 'good'),
        everyParts: fc.integer({ min: 3, max: 40 }),
        minutes: fc.integer({ min: 1, max: 20 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
  });

  it('never locks up, and makes no less than two thirds of what waiting at each act makes', () => {
    fc.assert(
      fc.property(shops, ({ stops, ...shop }) => {
        const rows = stops.map(({ at, ...of }, i) => stop(at, { ...of, name: `s${i}` }));
        const cell = washShop({ ...shop, stops: rows });
        const passing = madeIn(cell, 'order', 40);
        expect(passing.deadlock).toBeNull();
        expect(passing.parts).toBeGreaterThan((2 / 3) * madeIn(cell, 'strict', 40).parts);
      }),
      { numRuns: cases(40) },
    );
  });
});
