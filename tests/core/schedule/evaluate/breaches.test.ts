// Every rule of the check at its edge, on schedules made by hand: kept to the second they pass, just beyond they do not.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import {
  type CheckedSchedule,
  checkSchedule,
} from '../../../../src/core/schedule/evaluate/check-schedule.js';
import type { ScheduleEvent } from '../../../../src/core/schedule/result.js';
import { station } from '../../../support/line-cell.js';
import { millCell } from '../../../support/mill-cell.js';

const STEPS = { in: 1, mill: 2, out: 3 } as const;

function event(
  startS: number,
  action: 'pick' | 'place',
  at: keyof typeof STEPS,
  hand: 1 | 2 = 1,
): ScheduleEvent {
  return { startS, endS: startS + 1, action, station: at, part: 'cap', step: STEPS[at], hand };
}

const schedule = (periodS: number, events: readonly ScheduleEvent[], caps = 1): CheckedSchedule => ({
  periodS,
  partsPerPeriod: { cap: caps },
  events,
  holds: [],
});

/** The part that was put in waits for its cycle with the robot beside it. */
const beside = [
  event(0, 'pick', 'in'),
  event(2, 'place', 'mill'),
  event(7, 'pick', 'mill'),
  event(9, 'place', 'out'),
];
/** The part of the cycle before comes out first. */
const before = [
  event(0, 'pick', 'mill'),
  event(2, 'place', 'out'),
  event(4, 'pick', 'in'),
  event(6, 'place', 'mill'),
];

const NO_CONTENT = 'mill: no start content keeps its capacity, process times and maximum waits';

describe('the robot', () => {
  it('needs its way between two actions, and back to the first one', () => {
    expect(checkSchedule(millCell(), schedule(11, beside))).toEqual([]);
    expect(checkSchedule(millCell(), schedule(10.9, beside))).toEqual([
      'the robot cannot be at in at 10.9 s after out',
    ]);
    const late = beside.map((e, i) => (i === 0 ? { ...e, startS: 0.1, endS: 1.1 } : e));
    expect(checkSchedule(millCell(), schedule(11, late))).toEqual([
      'the robot cannot be at mill at 2 s after in',
    ]);
  });

  it('takes the loaded way with a part in hand and the empty one without', () => {
    const ways = (emptyS: number, loadedS: number) => ({
      travelS: null,
      travel: ['in', 'mill', 'out'].flatMap((from) =>
        ['in', 'mill', 'out'].flatMap((to) => (from === to ? [] : [{ from, to, emptyS, loadedS }])),
      ),
    });
    expect(checkSchedule(millCell(ways(1, 1)), schedule(11, beside))).toEqual([]);
    expect(checkSchedule(millCell(ways(1, 1.5)), schedule(11, beside))).toEqual([
      'the robot cannot be at mill at 2 s after in',
      'the robot cannot be at out at 9 s after mill',
    ]);
    expect(checkSchedule(millCell(ways(1.5, 1)), schedule(11, beside))).toEqual([
      'the robot cannot be at in at 11 s after out',
    ]);
    expect(checkSchedule(millCell({ travelS: null }), schedule(11, beside))).toEqual([
      'no travel time from in to mill',
      'no travel time from mill to out',
      'no travel time from out to in',
    ]);
  });

  it('turns its gripper between two actions at one station', () => {
    // Fetch a cap, take the finished one out with the other hand, put the raw one in, carry the finished one off.
    const swap = (turnS: number) => [
      event(0, 'pick', 'in', 1),
      event(2, 'pick', 'mill', 2),
      event(3 + turnS, 'place', 'mill', 1),
      event(5 + turnS, 'place', 'out', 2),
    ];
    expect(checkSchedule(millCell({ hands: 2, indexS: 3 }), schedule(20, swap(3)))).toEqual([]);
    expect(checkSchedule(millCell({ hands: 2, indexS: 3 }), schedule(20, swap(2.9)))).toEqual([
      'the robot cannot be at mill at 5.9 s after mill',
    ]);
    // With one hand there is nothing to turn.
    const still = millCell({ indexS: 3, machine: { closeS: 0, readyS: 0 }, work: { cycleS: 0 } });
    const close = [beside[0]!, beside[1]!, event(3, 'pick', 'mill'), event(5, 'place', 'out')];
    expect(checkSchedule(still, schedule(7, close))).toEqual([]);
  });

  it('may hand a part over from period to period by hands that change places', () => {
    // The cap of the mill goes out in the next period, by the hand that is then free of a raw one.
    const over = [
      event(0, 'pick', 'in', 1),
      event(2, 'pick', 'mill', 2),
      event(3, 'place', 'mill', 1),
      event(5, 'place', 'out', 2),
    ];
    const cell = millCell({ hands: 2 });
    expect(checkSchedule(cell, schedule(20, over))).toEqual([]);
    const across = [
      event(0, 'place', 'out', 1),
      event(2, 'pick', 'in', 1),
      event(4, 'pick', 'mill', 2),
      event(5, 'place', 'mill', 1),
    ];
    expect(checkSchedule(cell, schedule(20, across))).toEqual([]);
    const kept = across.map((e, i) => (i === 0 ? { ...e, hand: 2 as const } : e));
    expect(checkSchedule(cell, schedule(20, kept))).toEqual([]);
  });

  it('has what its hands say', () => {
    const cell = millCell({ hands: 2 });
    const by = (index: number, hand: 1 | 2) => beside.map((e, i) => (i === index ? { ...e, hand } : e));
    expect(checkSchedule(cell, schedule(11, by(1, 2)))).toEqual([
      'pick of cap at mill by gripper 1: that gripper holds a part',
    ]);
    // By hands that change places in every period the finished cap goes out in the next one.
    expect(checkSchedule(cell, schedule(11, by(3, 2)))).toEqual([]);
    const twice = [
      event(0, 'pick', 'in'),
      event(2, 'pick', 'mill'),
      event(4, 'place', 'mill'),
      event(6, 'place', 'out'),
    ];
    expect(checkSchedule(cell, schedule(20, twice))).toEqual([
      'pick of cap at mill by gripper 1: that gripper holds a part',
    ]);
    const wrong = [
      event(0, 'pick', 'in'),
      event(2, 'place', 'out'),
      event(4, 'pick', 'mill'),
      event(6, 'place', 'mill'),
    ];
    expect(checkSchedule(cell, schedule(20, wrong))).toEqual([
      'place of cap at out by gripper 1: that gripper holds something else',
    ]);
    const empty = [...beside, event(11, 'place', 'out')];
    expect(checkSchedule(cell, schedule(20, empty))).toEqual([
      'place of cap at out by gripper 1: that gripper is empty',
      'cap step 3: 2 in and 1 out in a period, 1 needed',
    ]);
  });
});

describe('an action', () => {
  const changed = (index: number, change: Partial<ScheduleEvent>) =>
    schedule(
      30,
      beside.map((e, i) => (i === index ? { ...e, ...change } : e)),
    );

  it('lasts as long as the table says', () => {
    const slow = millCell({ work: { loadS: 1, unloadS: 1.5 } });
    expect(checkSchedule(slow, schedule(11, beside))).toEqual(['pick of cap at mill: it needs 1.5 s']);
    expect(checkSchedule(millCell({ work: { loadS: 1.5 } }), schedule(11, beside))).toEqual([
      'place of cap at mill: it needs 1.5 s',
    ]);
  });

  it('is one of its step, at a station of the step, by a gripper that is there', () => {
    expect(checkSchedule(millCell(), changed(0, { part: 'lid' }))).toEqual([
      'pick of lid at in: its step is not there',
    ]);
    expect(checkSchedule(millCell(), changed(0, { step: 9 }))).toEqual([
      'pick of cap at in: its step is not there',
    ]);
    expect(checkSchedule(millCell(), changed(0, { station: 'mill' }))).toEqual([
      'pick of cap at mill: its step is not there',
    ]);
    expect(checkSchedule(millCell(), changed(2, { hand: 2 }))).toEqual([
      'pick of cap at mill: the robot has no gripper 2',
    ]);
  });

  it('is asked for by the route', () => {
    expect(checkSchedule(millCell(), changed(0, { action: 'place' }))).toEqual([
      'place of cap at in: the route does not ask for it',
    ]);
    expect(checkSchedule(millCell(), changed(3, { action: 'pick' }))).toEqual([
      'pick of cap at out: the route does not ask for it',
    ]);
  });

  it('there is at least one', () => {
    expect(checkSchedule(millCell(), schedule(11, []))).toEqual(['the schedule has no events']);
  });

  it('comes as often as the parts of a period ask', () => {
    expect(checkSchedule(millCell(), schedule(11, beside, 2))).toEqual([
      'cap step 1: 2 in and 1 out in a period, 2 needed',
      'cap step 2: 1 in and 1 out in a period, 2 needed',
      'cap step 3: 1 in and 2 out in a period, 2 needed',
    ]);
    const cell = millCell();
    const lid = { part: 'lid', steps: cell.routes[0]!.steps };
    expect(checkSchedule({ ...cell, routes: [...cell.routes, lid] }, schedule(11, beside))).toEqual([]);
  });
});

describe('a station', () => {
  it('finishes its process before the pick: of the same period, or of the one before', () => {
    expect(checkSchedule(millCell(), schedule(11, before))).toEqual([]);
    expect(checkSchedule(millCell(), schedule(10.9, before))).toEqual([NO_CONTENT]);
    for (const [changes, passes] of [
      [{ work: { cycleS: 2 } }, true],
      [{ work: { cycleS: 2.1 } }, false],
      [{ machine: { closeS: 1.1 } }, false],
      [{ machine: { readyS: 1.1 } }, false],
    ] as const)
      expect(checkSchedule(millCell(changes), schedule(11, beside))).toEqual(passes ? [] : [NO_CONTENT]);
  });

  it('keeps the longest wait', () => {
    for (const [periodS, passes] of [
      [11, true],
      [13, true],
      [13.1, false],
    ] as const)
      expect(checkSchedule(millCell({ work: { maxWaitS: 2 } }), schedule(periodS, before))).toEqual(
        passes ? [] : [NO_CONTENT],
      );
    // Without one it may wait for ever.
    expect(checkSchedule(millCell(), schedule(1300, before))).toEqual([]);
  });

  it('holds no more than its capacity', () => {
    // The raw cap goes in while the finished one is still inside.
    const both = [
      event(0, 'pick', 'in', 1),
      event(2, 'place', 'mill', 1),
      event(3, 'pick', 'mill', 1),
      event(5, 'place', 'out', 1),
    ];
    expect(checkSchedule(millCell({ machine: { capacityParts: 2 } }), schedule(20, both))).toEqual([]);
    expect(checkSchedule(millCell(), schedule(20, both))).toEqual([NO_CONTENT]);
    // What is inside is worked on for a period longer where more of them fit.
    const slow = { work: { cycleS: 22 } };
    expect(checkSchedule(millCell({ machine: { capacityParts: 2 }, ...slow }), schedule(20, both))).toEqual([
      NO_CONTENT,
    ]);
    expect(checkSchedule(millCell({ machine: { capacityParts: 3 }, ...slow }), schedule(20, both))).toEqual(
      [],
    );
  });

  it('runs a fixture only when it is full', () => {
    // Two caps in, then two out; the cycle begins with the second one.
    const pair = (pickS: number) => [
      event(0, 'pick', 'in'),
      event(2, 'place', 'mill'),
      event(4, 'pick', 'in'),
      event(6, 'place', 'mill'),
      event(pickS, 'pick', 'mill'),
      event(pickS + 2, 'place', 'out'),
      event(pickS + 4, 'pick', 'mill'),
      event(pickS + 6, 'place', 'out'),
    ];
    const fixture = millCell({ machine: { capacityParts: 2 }, work: { partsPerCycle: 2 } });
    expect(checkSchedule(fixture, schedule(30, pair(11), 2))).toEqual([]);
    expect(checkSchedule(fixture, schedule(30, pair(10.9), 2))).toEqual([NO_CONTENT]);
    // One at a time the first cap may leave after its own cycle; here it waits 4 s longer for the second one.
    const single = millCell({ machine: { capacityParts: 2 } });
    expect(checkSchedule(single, schedule(30, pair(7), 2))).toEqual([]);
  });

  it('that the robot holds a part in keeps it for loading, cycle and unloading', () => {
    const cell: Cell = {
      ...millCell(),
      stations: [station('in', 'infeed'), station('mill', 'held'), station('out', 'outfeed')],
    };
    const held = (lastsS: number): CheckedSchedule => ({
      ...schedule(12, [event(0, 'pick', 'in'), event(8, 'place', 'out')]),
      holds: [{ startS: 2, endS: 2 + lastsS, station: 'mill', part: 'cap', step: 2, hand: 1 }],
    });
    expect(checkSchedule(cell, held(4))).toEqual([]);
    expect(checkSchedule(cell, held(3.9))).toEqual(['hold of cap at mill: it needs 4 s']);
    expect(checkSchedule(cell, { ...held(4), holds: [] })).toEqual([
      'place of cap at out by gripper 1: that gripper holds something else',
      'cap step 2: 0 in and 1 out in a period, 1 needed',
    ]);
  });
});

describe('an infeed that needs time for the next part', () => {
  it('serves again when that is over, in this period or the next', () => {
    const cell = millCell({ first: { cycleS: 6 }, infeed: { closeS: 2, readyS: 2 } });
    expect(checkSchedule(cell, schedule(11, beside))).toEqual([]);
    expect(
      checkSchedule(
        millCell({ first: { cycleS: 6.5 }, infeed: { closeS: 2, readyS: 2 } }),
        schedule(11, beside),
      ),
    ).toEqual(['in: it serves again at 11.5 s only']);
    const twice = [...beside, ...beside.map((e) => ({ ...e, startS: e.startS + 11, endS: e.endS + 11 }))];
    const slow = millCell({ first: { cycleS: 11 } });
    expect(checkSchedule(slow, schedule(23, twice, 2))).toEqual(['in: it serves again at 12 s only']);
    expect(checkSchedule(millCell({ first: { cycleS: 10 } }), schedule(22, twice, 2))).toEqual([]);
  });
});

describe('a step that one part in two makes', () => {
  /** in, gauge for every second part, out; by one hand. */
  const cell: Cell = {
    ...millCell({ work: { everyParts: 2 } }),
  };
  const half = [...beside, event(11, 'pick', 'in'), { ...event(13, 'place', 'out') }];

  it('may be left out, and comes half as often', () => {
    expect(checkSchedule(cell, schedule(15, half, 2))).toEqual([]);
    expect(checkSchedule(millCell(), schedule(15, half, 2))).toEqual([
      'place of cap at out by gripper 1: that gripper holds something else',
      'cap step 2: 1 in and 1 out in a period, 2 needed',
    ]);
    expect(checkSchedule(cell, schedule(15, half, 4))).toContain(
      'cap step 2: 1 in and 1 out in a period, 2 needed',
    );
  });
});
