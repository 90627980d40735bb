/** Which raw part comes next, by hand. */
import { describe, expect, it } from 'vitest';
import { Places } from '../../../../src/core/floor/dispatch/places.js';
import { RawParts } from '../../../../src/core/floor/dispatch/raw-parts.js';
import { RoutePath } from '../../../../src/core/floor/route-path.js';
import type { Cell, Part, Step } from '../../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../../simulate/cells.js';
import { bareFloor } from '../bare-floor.js';

const part = (name: string, ratio: number | null, more: Partial<Part> = {}): Part => ({
  ...{ part: name, contribution: null, perShift: null, ratio, yieldPct: 100 },
  ...more,
});

const [RACK_1, RACK_2, MILL, GOOD] = [0, 1, 2, 4];
const NONE = -1;

/** Caps, rods and tags: the first two are milled, a tag goes straight out. */
function shop(parts: readonly Part[], more: Partial<Cell> = {}, ofMill: Partial<Step> = {}) {
  const floor = bareFloor(
    cellOf({
      stations: [
        station('rack_1', 'infeed', { capacityParts: 5 }),
        station('rack_2', 'infeed', { capacityParts: 5 }),
        station('mill', 'machine', { capacityParts: 2 }),
        station('press', 'machine'),
        station('good', 'outfeed', { capacityParts: 50 }),
      ],
      routes: parts.map(({ part: name }) => ({
        part: name,
        steps: [
          step(1, name === 'cap' ? ['rack_1', 'rack_2'] : ['rack_2']),
          ...(name === 'tag' ? [] : [step(2, ['mill'], { cycleS: 50, ...ofMill })]),
          step(3, ['good'], { loadS: 2 }),
        ],
      })),
      robot: { ...ROBOT, travelS: 7 },
      parts: [...parts],
      ...more,
    }),
  );
  const path = new RoutePath(floor.cell);
  const places = new Places(floor, path, { at: RACK_1 }, false);
  const raw = new RawParts(floor, path, places);
  /** The name of the part that comes next to the mill. */
  const next = () => {
    const found = raw.forStation(MILL);
    return found === null ? null : floor.cell.routeNames[floor.cell.opRoute[found.op]];
  };
  const out = (choice: number) => {
    floor.racks.left[floor.cell.opStations[choice]] = 0;
  };
  return { floor, path, raw, next, out };
}

describe('two parts without a ratio', () => {
  it('come in turn, the one of which fewer were started', () => {
    const { floor, next } = shop([part('cap', null), part('rod', null)]);
    expect(next()).toBe('cap');
    floor.mixStarted.set([1, 0]);
    expect(next()).toBe('rod');
    floor.mixStarted.set([1, 1]);
    expect(next()).toBe('cap');
    floor.mixStarted.set([90, 91]);
    expect(next()).toBe('cap');
  });

  it('from the first rack of the part that can serve', () => {
    const { raw, out, next } = shop([part('cap', null), part('rod', null)]);
    expect(raw.forStation(MILL)).toEqual({ station: RACK_1, op: 0, slot: NONE, choice: 0 });
    out(0);
    expect(raw.forStation(MILL)).toEqual({ station: RACK_2, op: 0, slot: NONE, choice: 1 });
    out(1);
    expect(next()).toBeNull();
  });

  it('the one that has parts where the other has none', () => {
    const { out, next, floor } = shop([part('cap', null), part('rod', null)]);
    floor.mixStarted.set([9, 0]);
    expect(next()).toBe('rod');
    out(1);
    expect(next()).toBe('cap');
  });

  it('none that a fixture does not take meanwhile', () => {
    const { floor, next } = shop([part('cap', null), part('rod', null)], {}, { partsPerCycle: 2 });
    // The caps' step at the mill is operation 1, the rods' 4.
    floor.pendingOp[MILL] = 4;
    expect(next()).toBe('rod');
    floor.pendingOp[MILL] = 1;
    floor.mixStarted.set([9, 0]);
    expect(next()).toBe('cap');
  });

  it('none to a station that no infeed feeds', () => {
    expect(shop([part('cap', null), part('rod', null)]).raw.forStation(3)).toBeNull();
  });
});

describe('two caps for each rod', () => {
  const parts = [part('cap', 2), part('rod', 1)];

  it('come set by set', () => {
    const { floor, next } = shop(parts);
    const order: (string | null)[] = [];
    for (let i = 0; i < 6; i++) {
      const name = next();
      order.push(name);
      floor.mixStarted[name === 'cap' ? 0 : 1]++;
    }
    // Shares of a set: 0 and 0; a half and 0; a half and 1; 1 and 1; and again.
    expect(order).toEqual(['cap', 'rod', 'cap', 'cap', 'rod', 'cap']);
  });

  it('caps may be a set ahead of the set under way while there is no rod', () => {
    const { floor, out, next } = shop(parts);
    out(1);
    const allowed = [0, 3, 4].map((caps) => {
      floor.mixStarted.set([caps, 0]);
      return next();
    });
    expect(allowed).toEqual(['cap', 'cap', null]);
    floor.mixStarted.set([5, 1]);
    expect(next()).toBe('cap');
    floor.mixStarted.set([6, 1]);
    expect(next()).toBeNull();
  });

  it('or a load of the fixture', () => {
    const { floor, out, next } = shop(parts, {}, { partsPerCycle: 4 });
    out(1);
    const allowed = [5, 6].map((caps) => {
      floor.mixStarted.set([caps, 0]);
      return next();
    });
    expect(allowed).toEqual(['cap', null]);
  });

  it('counted in sets: one of two rods is half a set', () => {
    const { floor, out, next } = shop([part('rod', 2), part('cap', 1)]);
    out(0);
    const allowed = [1, 2].map((caps) => {
      floor.mixStarted.set([1, caps]);
      return next();
    });
    expect(allowed).toEqual(['cap', null]);
  });

  it('a part that waits for people holds nobody up', () => {
    const { floor, out, next } = shop([part('cap', 2), part('rod', 1, { unattended: false })]);
    floor.mixStarted.set([90, 0]);
    out(1);
    expect(next()).toBeNull();
    floor.hours.alone = true;
    expect(next()).toBe('cap');
  });
});

describe('a single part', () => {
  it('comes while its rack can serve', () => {
    const { raw, out, floor } = shop([part('rod', 1)]);
    expect(floor.cell.soleFeed[MILL]).toBe(0);
    expect(raw.forStation(MILL)).toEqual({ station: RACK_2, op: 0, slot: NONE, choice: 0 });
    out(0);
    expect(raw.forStation(MILL)).toBeNull();
  });

  it('waits for its turn where only one in three goes to the mill', () => {
    const third = shop([part('rod', null)], {}, { everyParts: 3 });
    expect(third.floor.cell.soleFeed[MILL]).toBe(NONE);
    expect(third.raw.forStation(MILL)).toBeNull();
    // It goes straight out instead.
    expect(third.raw.straightOut()).toEqual({
      pick: { station: RACK_2, op: 0, slot: NONE, choice: 0 },
      place: { station: GOOD, op: 2, slot: NONE, choice: 2, swap: false },
    });
    for (let gone = 0; gone < 2; gone++) third.path.take(0, 2);
    expect(third.raw.straightOut()).toBeNull();
    expect(third.next()).toBe('rod');
  });

  it('is made whatever its ratio', () => {
    const { floor, next } = shop([part('cap', 3)]);
    floor.mixStarted[0] = 1000;
    expect(next()).toBe('cap');
  });
});

describe('straight out', () => {
  it('goes a part that no station works on, while its rack has one and the outfeed room', () => {
    const { raw, out } = shop([part('tag', null), part('rod', null)]);
    const round = {
      pick: { station: RACK_2, op: 0, slot: NONE, choice: 0 },
      place: { station: GOOD, op: 1, slot: NONE, choice: 1, swap: false },
    };
    expect(raw.straightOut()).toEqual(round);
    out(1);
    expect(raw.straightOut()).toBeNull();
    const other = shop([part('tag', null)]);
    other.out(0);
    expect(other.raw.straightOut()).toBeNull();
  });

  it('not ahead of its mix', () => {
    const { raw, floor } = shop([part('tag', 1), part('rod', 1)]);
    floor.mixStarted.set([1, 0]);
    expect(raw.straightOut()).not.toBeNull();
    floor.mixStarted.set([2, 0]);
    expect(raw.straightOut()).toBeNull();
  });

  it('never a part that is worked on', () => {
    expect(shop([part('cap', null), part('rod', null)]).raw.straightOut()).toBeNull();
  });
});
