/** Infeeds and outfeeds that can make the robot wait, by hand. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { EventClock } from '../../../src/core/floor/event-clock.js';
import { OpenTime } from '../../../src/core/floor/open-time.js';
import { PlannedStops } from '../../../src/core/floor/planned-stops.js';
import { type RackedFloor, Racks, rackStations } from '../../../src/core/floor/racks.js';
import type { Cell, PlannedStop, Station } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const NEVER = Number.POSITIVE_INFINITY;
const [CAPS, RODS, GOOD] = [0, 1, 3];
/** Choices and operations, one for each step: 0 to 2 of the cap, 3 to 5 of the rod. */
const [CAP_IN, CAP_OUT, ROD_IN, ROD_OUT] = [0, 2, 3, 5];
/** Timers of racks begin at 2. */
const FIRST_TIMER = 2;
const [OPEN, CALLING, SERVED] = [0, 1, 2];

interface Shop {
  readonly caps?: Partial<Station>;
  readonly rods?: Partial<Station>;
  readonly good?: Partial<Station>;
  /** Seconds at the infeed of caps, and at the outfeed for caps alone. */
  readonly cycleS?: readonly [number, number];
  readonly stops?: readonly PlannedStop[];
  readonly parts?: Cell['parts'];
}

function compiled({ caps, rods, good, cycleS = [0, 0], stops = [], parts = [] }: Shop) {
  return compileCell(
    cellOf({
      stations: [
        station('caps', 'infeed', caps),
        station('rods', 'infeed', rods),
        station('mill', 'machine', { closeS: 1, capacityParts: 2 }),
        station('good', 'outfeed', good),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['caps'], { cycleS: cycleS[0] }),
            step(2, ['mill'], { cycleS: 30 }),
            step(3, ['good'], { cycleS: cycleS[1] }),
          ],
        },
        { part: 'rod', steps: [step(1, ['rods']), step(2, ['mill'], { cycleS: 20 }), step(3, ['good'])] },
      ],
      robot: { ...ROBOT, travelS: 1 },
      stops: [...stops],
      parts,
    }),
  );
}

function shop(of: Shop, firstTimer = FIRST_TIMER) {
  const cell = compiled(of);
  const hours = new OpenTime(null);
  const calls: (readonly [number, number])[] = [];
  const stops = new PlannedStops(cell, hours);
  stops.begin();
  const floor = {
    ...{ cell, hours, stops, clock: new EventClock(8), now: 0, changed: false },
    callToRack: (s: number, stop: number) => calls.push([s, stop]),
  } satisfies RackedFloor;
  return { floor, calls, stops, hours, racks: new Racks(floor, rackStations(cell), firstTimer) };
}

const stop = (of: Partial<PlannedStop>): PlannedStop => ({
  ...{ station: 'caps', name: 'refill', everyParts: null, everyH: null, minutes: 1, operator: true },
  ...of,
});

describe('which stations are racks', () => {
  it('those with a limit, a pace or a stop of their own; never a machine', () => {
    expect(rackStations(compiled({}))).toEqual([]);
    expect(rackStations(compiled({ caps: { capacityParts: 3 } }))).toEqual([CAPS]);
    expect(rackStations(compiled({ rods: { closeS: 1 }, good: { readyS: 2 } }))).toEqual([RODS, GOOD]);
    expect(rackStations(compiled({ cycleS: [4, 0] }))).toEqual([CAPS]);
    expect(rackStations(compiled({ cycleS: [0, 4] }))).toEqual([GOOD]);
    const stops = [stop({ station: 'good', everyParts: 9 }), stop({ station: 'mill', everyParts: 9 })];
    expect(rackStations(compiled({ stops }))).toEqual([GOOD]);
  });

  it('another station never makes the robot wait', () => {
    const { racks, floor, calls } = shop({ rods: { capacityParts: 1 } });
    racks.use(CAP_IN, CAP_IN, 0);
    racks.use(CAP_OUT, CAP_OUT, 0);
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), racks.serves(CAP_OUT)]).toEqual([true, false, true]);
    expect([calls, floor.clock.times[floor.clock.first], racks.left[CAPS]]).toEqual([[], NEVER, NEVER]);
  });
});

describe('a rack for two', () => {
  it('calls once it is empty, and is full again when it has been served', () => {
    const { racks, floor, calls } = shop({ caps: { capacityParts: 2 } });
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), racks.left[CAPS]]).toEqual([true, false, 2]);
    racks.use(CAP_IN, CAP_IN, 0);
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), racks.left[CAPS], calls]).toEqual([
      true,
      false,
      1,
      [],
    ]);
    racks.use(CAP_IN, CAP_IN, 0);
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), racks.state[CAPS]]).toEqual([false, true, CALLING]);
    expect(calls).toEqual([[CAPS, -1]]);
    // The other infeed and the outfeed go on.
    expect([racks.serves(ROD_IN), racks.serves(CAP_OUT)]).toEqual([true, true]);
    racks.isServed(CAPS);
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), racks.left[CAPS], racks.state[CAPS]]).toEqual([
      true,
      false,
      2,
      OPEN,
    ]);
    expect(floor.changed).toBe(true);
  });

  it('an outfeed for two is full for the parts of all routes', () => {
    const { racks, calls } = shop({ good: { capacityParts: 2 } });
    racks.use(CAP_OUT, CAP_OUT, 0);
    racks.use(ROD_OUT, ROD_OUT, 0);
    expect([racks.serves(CAP_OUT), racks.serves(ROD_OUT), racks.isOut(ROD_OUT), calls]).toEqual([
      false,
      false,
      true,
      [[GOOD, -1]],
    ]);
  });

  it('is topped up before people leave, but not while it waits for them', () => {
    const stops = [stop({ station: 'rods', everyParts: 4 })];
    const { racks, stops: planned } = shop({ caps: { capacityParts: 2 }, rods: { capacityParts: 9 }, stops });
    racks.use(ROD_IN, ROD_IN, 0);
    racks.use(CAP_IN, CAP_IN, 0);
    expect(planned.count[0]).toBe(1);
    racks.topUp();
    expect([racks.left[CAPS], racks.left[RODS], planned.count[0]]).toEqual([2, 9, 0]);
    racks.use(CAP_IN, CAP_IN, 0);
    racks.use(CAP_IN, CAP_IN, 0);
    racks.topUp();
    expect([racks.left[CAPS], racks.state[CAPS]]).toEqual([0, CALLING]);
  });
});

describe('a planned stop of a rack', () => {
  it('by parts is a rack that has run out', () => {
    const { racks, calls, stops } = shop({ caps: { capacityParts: 10 }, stops: [stop({ everyParts: 2 })] });
    racks.use(CAP_IN, CAP_IN, 0);
    expect(calls).toEqual([]);
    racks.use(CAP_IN, CAP_IN, 0);
    expect([calls, stops.count[0], racks.left[CAPS]]).toEqual([[[CAPS, -1]], 0, 8]);
    // Eight are there, but somebody has to see to it first.
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN)]).toEqual([false, true]);
    racks.isServed(CAPS);
    expect([racks.left[CAPS], racks.serves(CAP_IN), racks.isOut(CAP_IN)]).toEqual([10, true, false]);
  });

  it('by the clock is named, unless the rack has run out as well; its hours begin anew', () => {
    const stops = [stop({ station: 'mill', everyParts: 1 }), stop({ everyH: 1 })];
    const { racks, floor, calls, stops: planned } = shop({ caps: { capacityParts: 2 }, stops });
    floor.now = 3600;
    racks.use(CAP_IN, CAP_IN, 3600);
    expect(calls).toEqual([[CAPS, 1]]);
    expect(planned.dueAtS[1]).toBe(3600 + 60 + 3600);
    racks.isServed(CAPS);
    floor.now = 7300;
    racks.left[CAPS] = 1;
    racks.use(CAP_IN, CAP_IN, 7300);
    expect(calls[1]).toEqual([CAPS, -1]);
  });

  it('of two at one rack the one that is due counts, and begins anew', () => {
    const clocked = {
      stops: [stop({ everyH: 1 }), stop({ station: 'rods', everyParts: 2 }), stop({ everyParts: 3 })],
    };
    const { racks, floor, calls, stops } = shop({ ...clocked, caps: { capacityParts: 10 } });
    floor.now = 3600;
    racks.use(CAP_IN, CAP_IN, 3600);
    expect([calls, [...stops.count], stops.dueAtS[0]]).toEqual([[[CAPS, 0]], [0, 0, 1], 7260]);
    racks.isServed(CAPS);
    racks.use(CAP_IN, CAP_IN, 3600);
    racks.use(CAP_IN, CAP_IN, 3600);
    expect([calls[1], [...stops.count], stops.dueAtS[0]]).toEqual([[CAPS, -1], [2, 0, 0], 7260]);
  });

  it('that needs nobody is over after its minutes, and so is a rack that runs out before it is due', () => {
    const stops = [stop({ everyParts: 5, operator: false })];
    const { racks, floor, calls } = shop({ caps: { capacityParts: 1 }, stops });
    floor.now = 100;
    racks.use(CAP_IN, CAP_IN, 100);
    expect([racks.state[CAPS], racks.isOut(CAP_IN), floor.clock.times[FIRST_TIMER], calls]).toEqual([
      SERVED,
      true,
      160,
      [],
    ]);
    floor.now = 160;
    racks.onTimer(0);
    expect([racks.state[CAPS], racks.left[CAPS], floor.clock.times[FIRST_TIMER], floor.changed]).toEqual([
      OPEN,
      1,
      NEVER,
      true,
    ]);
  });
});

describe('a pace of its own', () => {
  const paced: Shop = { caps: { closeS: 2, readyS: 3 }, cycleS: [10, 0] };

  it('an infeed serves again once it has closed, presented the next part and is ready', () => {
    const { racks, floor } = shop(paced);
    floor.now = 100;
    racks.use(CAP_IN, CAP_IN, 98);
    // 98 + 2 + 10 + 3; it needs nobody.
    expect([racks.readyAtS[CAPS], floor.clock.times[FIRST_TIMER]]).toEqual([113, 113]);
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN)]).toEqual([false, false]);
    floor.now = 112;
    expect(racks.serves(CAP_IN)).toBe(false);
    floor.now = 113;
    racks.onTimer(0);
    expect([racks.serves(CAP_IN), floor.clock.times[FIRST_TIMER], floor.changed]).toEqual([
      true,
      NEVER,
      true,
    ]);
  });

  it('one that is served meanwhile still needs its time', () => {
    const { racks, floor, calls } = shop({ ...paced, caps: { ...paced.caps, capacityParts: 1 } });
    racks.use(CAP_IN, CAP_IN, 0);
    expect([calls, floor.clock.times[FIRST_TIMER]]).toEqual([[[CAPS, -1]], NEVER]);
    floor.now = 5;
    racks.isServed(CAPS);
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), floor.clock.times[FIRST_TIMER]]).toEqual([
      false,
      false,
      15,
    ]);
  });

  it('a stop without people sets the timer, not the pace', () => {
    const stops = [stop({ everyParts: 1, operator: false })];
    const { racks, floor } = shop({ ...paced, stops });
    racks.use(CAP_IN, CAP_IN, 0);
    expect([racks.state[CAPS], floor.clock.times[FIRST_TIMER]]).toEqual([SERVED, 60]);
    floor.now = 60;
    racks.onTimer(0);
    expect([racks.state[CAPS], racks.serves(CAP_IN), floor.clock.times[FIRST_TIMER]]).toEqual([
      OPEN,
      true,
      NEVER,
    ]);
  });

  it('fills no rack', () => {
    const { racks, floor } = shop({ ...paced, caps: { ...paced.caps, capacityParts: 3 } });
    racks.use(CAP_IN, CAP_IN, 0);
    floor.now = 15;
    racks.onTimer(0);
    expect([racks.left[CAPS], racks.serves(CAP_IN)]).toEqual([2, true]);
  });

  it('and a limit hold for the first of all timers, too', () => {
    const { racks, floor, calls } = shop({ caps: { readyS: 6, capacityParts: 2 } }, 0);
    racks.use(CAP_IN, CAP_IN, 0);
    expect([racks.serves(CAP_IN), floor.clock.times[0]]).toEqual([false, 6]);
    floor.now = 6;
    racks.use(CAP_IN, CAP_IN, 6);
    expect([racks.isOut(CAP_IN), calls]).toEqual([true, [[CAPS, -1]]]);
  });

  it('each rack has its own timer', () => {
    const { racks, floor } = shop({ rods: { readyS: 7 }, good: { readyS: 4 } });
    racks.use(ROD_IN, ROD_IN, 10);
    racks.use(ROD_OUT, ROD_OUT, 20);
    floor.clock.set(1, 50);
    expect([...floor.clock.times.subarray(0, 5)]).toEqual([NEVER, 50, 17, 24, NEVER]);
    floor.now = 24;
    racks.onTimer(1);
    expect([...floor.clock.times.subarray(0, 5)]).toEqual([NEVER, 50, 17, NEVER, NEVER]);
  });
});

describe('a part that is taken in only while people are there', () => {
  const parts = ['cap', 'rod'].map((part) => ({
    ...{ part, contribution: null, perShift: null, ratio: null, yieldPct: 100 },
    ...(part === 'cap' ? { unattended: false } : {}),
  }));

  it('waits at its infeed while nobody is; what is inside still goes out', () => {
    const { racks, hours } = shop({ parts });
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), racks.bars, racks.isRouteBarred(0)]).toEqual([
      true,
      false,
      false,
      false,
    ]);
    hours.alone = true;
    expect([racks.serves(CAP_IN), racks.isOut(CAP_IN), racks.bars, racks.isRouteBarred(0)]).toEqual([
      false,
      true,
      true,
      true,
    ]);
    expect([racks.serves(ROD_IN), racks.isOut(ROD_IN), racks.isRouteBarred(1)]).toEqual([true, false, false]);
    expect([racks.serves(CAP_OUT), racks.isOut(CAP_OUT)]).toEqual([true, false]);
  });

  it('without such a part nothing waits for people', () => {
    const { racks, hours } = shop({});
    hours.alone = true;
    expect([racks.serves(CAP_IN), racks.bars]).toEqual([true, false]);
  });
});
