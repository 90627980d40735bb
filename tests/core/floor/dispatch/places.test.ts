/** Where a part can go, by hand: a cap over one of two mills and a washer for two, a rod that is washed twice. */
import { describe, expect, it } from 'vitest';
import { Places } from '../../../../src/core/floor/dispatch/places.js';
import { openCalendar } from '../../../../src/core/floor/open-calendar.js';
import { RoutePath } from '../../../../src/core/floor/route-path.js';
import type { FloorOptions, ShopFloor } from '../../../../src/core/floor/shop-floor.js';
import { EMPTY, FINISHED, PROCESSING } from '../../../../src/core/floor/slot-state.js';
import type { Station, TravelRow } from '../../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../../simulate/cells.js';
import { bareFloor, put } from '../bare-floor.js';

const [RACK, MILL_1, MILL_2, WASH, GOOD_1, GOOD_2] = [0, 1, 2, 3, 4, 5];
/** Operations, and choices of outfeeds. */
const [CAP_MILL, CAP_WASH, CAP_OUT, ROD_WASH, ROD_RINSE, ROD_OUT] = [1, 2, 3, 5, 6, 7];
/** Slots: one of each mill, two of the washer. */
const [AT_MILL_1, AT_MILL_2, AT_WASH, AT_WASH_TOO] = [0, 1, 2, 3];
const NONE = -1;

const way = (from: string, to: string, loadedS: number): TravelRow => ({ from, to, emptyS: 1, loadedS });

interface Shop extends Partial<FloorOptions> {
  readonly good?: Partial<Station>;
  readonly nearest?: boolean;
  readonly at?: number;
}

function shop({ good, nearest = false, at = RACK, ...more }: Shop = {}): {
  floor: ShopFloor;
  places: Places;
} {
  const floor = bareFloor(
    cellOf({
      stations: [
        station('rack', 'infeed'),
        station('mill_1', 'machine', { closeS: 1, readyS: 2 }),
        station('mill_2', 'machine', { closeS: 1, readyS: 2 }),
        station('wash', 'bench', { capacityParts: 2 }),
        station('good_1', 'outfeed', good),
        station('good_2', 'outfeed', good),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['rack']),
            step(2, ['mill_1', 'mill_2'], { cycleS: 50, loadS: 5 }),
            step(3, ['wash'], { cycleS: 10 }),
            step(4, ['good_1', 'good_2']),
          ],
        },
        {
          part: 'rod',
          steps: [
            step(1, ['rack']),
            step(2, ['wash'], { cycleS: 10 }),
            step(3, ['wash'], { cycleS: 10 }),
            step(4, ['good_1']),
          ],
        },
      ],
      robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 7 },
      travel: [way('rack', 'mill_1', 9), way('rack', 'mill_2', 4), way('wash', 'mill_2', 3)],
    }),
    more,
  );
  return { floor, places: new Places(floor, new RoutePath(floor.cell), { at }, nearest) };
}

const slotPlace = (s: number, op: number, slot: number, swap = false) => ({
  station: s,
  op,
  slot,
  choice: NONE,
  swap,
});
const outPlace = (s: number, op: number, choice: number) => ({
  station: s,
  op,
  slot: NONE,
  choice,
  swap: false,
});

describe('room', () => {
  it('is at the first station listed, or at the nearest', () => {
    expect(shop().places.room(CAP_MILL, RACK)).toEqual(slotPlace(MILL_1, CAP_MILL, AT_MILL_1));
    expect(shop({ nearest: true }).places.room(CAP_MILL, RACK)).toEqual(
      slotPlace(MILL_2, CAP_MILL, AT_MILL_2),
    );
    expect(shop({ nearest: true }).places.room(CAP_MILL, WASH)).toEqual(
      slotPlace(MILL_2, CAP_MILL, AT_MILL_2),
    );
    // From the outfeed both are as far.
    expect(shop({ nearest: true }).places.room(CAP_MILL, GOOD_1)).toEqual(
      slotPlace(MILL_1, CAP_MILL, AT_MILL_1),
    );
  });

  it('is where a slot is free, one after another', () => {
    const { floor, places } = shop();
    put(floor, AT_MILL_1, CAP_MILL, PROCESSING);
    expect(places.room(CAP_MILL, RACK)).toEqual(slotPlace(MILL_2, CAP_MILL, AT_MILL_2));
    put(floor, AT_MILL_2, CAP_MILL, FINISHED);
    expect(places.room(CAP_MILL, RACK)).toBeNull();
    expect(places.room(CAP_WASH, MILL_1)).toEqual(slotPlace(WASH, CAP_WASH, AT_WASH));
    put(floor, AT_WASH, ROD_WASH, PROCESSING);
    expect(places.room(CAP_WASH, MILL_1)).toEqual(slotPlace(WASH, CAP_WASH, AT_WASH_TOO));
    put(floor, AT_WASH_TOO, CAP_WASH, PROCESSING);
    expect(places.room(CAP_WASH, MILL_1)).toBeNull();
  });

  it('is at an outfeed that is not full', () => {
    const { floor, places } = shop({ good: { capacityParts: 1 } });
    expect(places.room(CAP_OUT, WASH)).toEqual(outPlace(GOOD_1, CAP_OUT, 4));
    floor.racks.use(4, CAP_OUT, 0);
    expect(places.room(CAP_OUT, WASH)).toEqual(outPlace(GOOD_2, CAP_OUT, 5));
    expect(places.room(ROD_OUT, WASH)).toBeNull();
    floor.racks.use(5, CAP_OUT, 0);
    expect(places.room(CAP_OUT, WASH)).toBeNull();
    expect(shop().places.room(ROD_OUT, WASH)).toEqual(outPlace(GOOD_1, ROD_OUT, 9));
  });

  it('is not in a fixture that waits for parts of another step', () => {
    const { floor, places } = shop();
    floor.pendingOp[WASH] = CAP_WASH;
    expect([places.fits(CAP_WASH, WASH), places.fits(ROD_WASH, WASH), places.fits(CAP_MILL, MILL_1)]).toEqual(
      [true, false, true],
    );
    expect(places.room(CAP_WASH, MILL_1)).toEqual(slotPlace(WASH, CAP_WASH, AT_WASH));
    expect(places.room(ROD_WASH, RACK)).toBeNull();
    // The first operation of all is another one, too.
    floor.pendingOp[WASH] = 0;
    expect(places.fits(CAP_WASH, WASH)).toBe(false);
  });
});

describe('before a changeover of the first mill', () => {
  const calendar = () => openCalendar([{ startS: 0, endS: 1000, attended: true, weekS: 1000 }]);
  const dueAt = (dueS: number, at: number) =>
    shop({
      calendar: calendar(),
      changeovers: [{ station: 'mill_1', workS: 60, stopS: 60, people: 1, dueS: [dueS] }],
      at,
    });

  it('it takes no part that would still be in work: twice the way, 5 s to place, 1 + 50 + 2 in work', () => {
    // From the rack twice 9 s, together 76; from the washer twice 7, together 72.
    expect([76, 77].map((dueS) => dueAt(dueS, RACK).places.takes(CAP_MILL, MILL_1))).toEqual([false, true]);
    expect([72, 73].map((dueS) => dueAt(dueS, WASH).places.takes(CAP_MILL, MILL_1))).toEqual([false, true]);
  });

  it('the other one does', () => {
    const { places } = dueAt(20, RACK);
    expect(places.takes(CAP_MILL, MILL_2)).toBe(true);
    expect(places.room(CAP_MILL, RACK)).toEqual(slotPlace(MILL_2, CAP_MILL, AT_MILL_2));
  });
});

describe('the place that a part leaves', () => {
  it('is its own where its next step is at the same station', () => {
    const { floor, places } = shop();
    expect(places.own(ROD_RINSE, AT_WASH_TOO)).toEqual(slotPlace(WASH, ROD_RINSE, AT_WASH_TOO));
    expect(places.own(CAP_WASH, AT_MILL_1)).toBeNull();
    floor.pendingOp[WASH] = CAP_WASH;
    expect(places.own(ROD_RINSE, AT_WASH_TOO)).toBeNull();
  });

  it('an operation goes to the stations that it lists', () => {
    const { places } = shop();
    expect([MILL_1, MILL_2, WASH].map((s) => places.goesTo(CAP_MILL, s))).toEqual([true, true, false]);
    expect([MILL_2, WASH, GOOD_1].map((s) => places.goesTo(CAP_WASH, s))).toEqual([false, true, false]);
  });
});

describe('an exchange', () => {
  it('is for a finished part that suits', () => {
    const { floor, places } = shop();
    const any = () => true;
    expect(places.exchange(CAP_MILL, any)).toBeNull();
    put(floor, AT_MILL_1, CAP_MILL, PROCESSING);
    expect(places.exchange(CAP_MILL, any)).toBeNull();
    put(floor, AT_MILL_2, CAP_MILL, FINISHED);
    expect(places.exchange(CAP_MILL, any)).toEqual(slotPlace(MILL_2, CAP_MILL, AT_MILL_2, true));
    expect(places.exchange(CAP_MILL, () => false)).toBeNull();
    put(floor, AT_WASH_TOO, ROD_WASH, FINISHED);
    put(floor, AT_MILL_2, CAP_MILL, PROCESSING);
    expect(places.exchange(CAP_MILL, any)).toBeNull();
    expect(places.exchange(CAP_WASH, any)).toEqual(slotPlace(WASH, CAP_WASH, AT_WASH_TOO, true));
    put(floor, AT_WASH, ROD_WASH, FINISHED);
    const asked: (readonly [number, number])[] = [];
    const second = (slot: number, s: number) => asked.push([slot, s]) === 2;
    expect(places.exchange(CAP_WASH, second)).toEqual(slotPlace(WASH, CAP_WASH, AT_WASH_TOO, true));
    expect(asked).toEqual([
      [AT_WASH, WASH],
      [AT_WASH_TOO, WASH],
    ]);
  });

  it('is not for an outfeed, nor in a fixture that waits for others', () => {
    const { floor, places } = shop();
    put(floor, AT_WASH, ROD_WASH, FINISHED);
    expect(places.exchange(CAP_OUT, () => true)).toBeNull();
    floor.pendingOp[WASH] = ROD_WASH;
    expect(places.exchange(CAP_WASH, () => true)).toBeNull();
    expect(places.exchange(ROD_WASH, () => true)).toEqual(slotPlace(WASH, ROD_WASH, AT_WASH, true));
  });
});

describe('a finished part can go on', () => {
  it('where there is room', () => {
    const { floor, places } = shop();
    put(floor, AT_MILL_1, CAP_MILL, FINISHED);
    expect(places.canGoOn(AT_MILL_1, NONE)).toBe(true);
  });

  it('behind a finished part that can go on itself, or into the place that is left', () => {
    const { floor, places } = shop({ good: { capacityParts: 1 } });
    put(floor, AT_MILL_1, CAP_MILL, FINISHED);
    put(floor, AT_WASH, ROD_RINSE, PROCESSING);
    put(floor, AT_WASH_TOO, CAP_WASH, PROCESSING);
    expect(places.canGoOn(AT_MILL_1, NONE)).toBe(false);
    expect(places.canGoOn(AT_MILL_1, WASH)).toBe(true);
    expect(places.canGoOn(AT_MILL_1, MILL_2)).toBe(false);
    put(floor, AT_WASH_TOO, CAP_WASH, FINISHED);
    expect(places.canGoOn(AT_MILL_1, NONE)).toBe(true);
    // With both outfeeds full it cannot.
    floor.racks.use(4, CAP_OUT, 0);
    expect(places.canGoOn(AT_MILL_1, NONE)).toBe(true);
    floor.racks.use(5, CAP_OUT, 0);
    expect(places.canGoOn(AT_MILL_1, NONE)).toBe(false);
    // An outfeed is no place that anything leaves.
    expect(places.canGoOn(AT_WASH_TOO, GOOD_1)).toBe(false);
  });

  it('not into a fixture that waits for others, whatever leaves it', () => {
    const { floor, places } = shop();
    put(floor, AT_MILL_1, CAP_MILL, FINISHED);
    floor.pendingOp[WASH] = ROD_WASH;
    expect([places.canGoOn(AT_MILL_1, NONE), places.canGoOn(AT_MILL_1, WASH)]).toEqual([false, false]);
  });

  it('a ring of finished parts ends', () => {
    const { floor, places } = shop();
    // Two rods that have been washed wait for each other's place.
    put(floor, AT_WASH, ROD_WASH, FINISHED);
    put(floor, AT_WASH_TOO, ROD_WASH, FINISHED);
    expect(places.canGoOn(AT_WASH, NONE)).toBe(false);
    expect(places.canGoOn(AT_WASH, NONE)).toBe(false);
    put(floor, AT_WASH_TOO, ROD_RINSE, FINISHED);
    expect(places.canGoOn(AT_WASH, NONE)).toBe(true);
  });
});

describe('the chain of finished parts that one round moves on', () => {
  it('goes up the route from place to place', () => {
    const { floor, places } = shop();
    put(floor, AT_WASH, CAP_WASH, FINISHED);
    expect(places.chainTo(AT_WASH)).toEqual([AT_WASH]);
    put(floor, AT_MILL_2, CAP_MILL, FINISHED);
    put(floor, AT_MILL_1, CAP_MILL, FINISHED);
    // The second mill called first; nothing finished comes before a mill.
    expect(places.chainTo(AT_WASH)).toEqual([AT_WASH, AT_MILL_2]);
    expect(places.chainTo(AT_MILL_1)).toEqual([AT_MILL_1]);
    put(floor, AT_MILL_2, CAP_MILL, PROCESSING);
    expect(places.chainTo(AT_WASH)).toEqual([AT_WASH, AT_MILL_1]);
    floor.pendingOp[WASH] = ROD_WASH;
    expect(places.chainTo(AT_WASH)).toEqual([AT_WASH]);
  });

  it('takes no part twice, and none that is still in work or has not come', () => {
    const { floor, places } = shop();
    put(floor, AT_WASH, ROD_WASH, FINISHED);
    put(floor, AT_WASH_TOO, ROD_WASH, FINISHED);
    expect(places.chainTo(AT_WASH)).toEqual([AT_WASH, AT_WASH_TOO]);
    put(floor, AT_WASH_TOO, ROD_WASH, PROCESSING);
    floor.calls.add(AT_WASH_TOO);
    expect(places.chainTo(AT_WASH)).toEqual([AT_WASH]);
    floor.slotState[AT_WASH_TOO] = EMPTY;
    expect(places.chainTo(AT_WASH)).toEqual([AT_WASH]);
  });
});
