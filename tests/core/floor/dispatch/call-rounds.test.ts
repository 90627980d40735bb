/** What answers a call, by hand: one hand and two. */
import { describe, expect, it } from 'vitest';
import { CallRounds } from '../../../../src/core/floor/dispatch/call-rounds.js';
import { Places } from '../../../../src/core/floor/dispatch/places.js';
import { RawParts } from '../../../../src/core/floor/dispatch/raw-parts.js';
import { openCalendar } from '../../../../src/core/floor/open-calendar.js';
import { RoutePath } from '../../../../src/core/floor/route-path.js';
import type { FloorOptions } from '../../../../src/core/floor/shop-floor.js';
import { FINISHED, PROCESSING } from '../../../../src/core/floor/slot-state.js';
import type { Cell } from '../../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../../simulate/cells.js';
import { bareFloor, put } from '../bare-floor.js';
import { crossingPresses } from '../crossing-presses.js';

const NONE = -1;

function roundsOf(cell: Cell, more: Partial<FloorOptions> = {}) {
  const floor = bareFloor(cell, more);
  const path = new RoutePath(floor.cell);
  const places = new Places(floor, path, { at: 0 }, false);
  const raw = new RawParts(floor, path, places);
  return { floor, rounds: new CallRounds(floor, path, places, raw) };
}

const finished = (s: number, op: number, slot: number) => ({ station: s, op, slot, choice: NONE });
const rawPart = (s: number, op: number, choice: number) => ({ station: s, op, slot: NONE, choice });
const slotPlace = (s: number, op: number, slot: number, swap = false) => ({
  station: s,
  op,
  slot,
  choice: NONE,
  swap,
});

/** A cap over a mill and a washer for one: rack, mill, washer, good. */
const [RACK, MILL, WASH, GOOD] = [0, 1, 2, 3];
const [CAP_RACK, CAP_MILL, CAP_WASH, CAP_OUT] = [0, 1, 2, 3];
const [AT_MILL, AT_WASH] = [0, 1];

function washLine(hands: 1 | 2, more: Partial<FloorOptions> = {}) {
  const line = roundsOf(
    cellOf({
      stations: [
        station('rack', 'infeed', { capacityParts: 9 }),
        station('mill', 'machine'),
        station('wash', 'bench'),
        station('good', 'outfeed', { capacityParts: 9 }),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['rack']),
            step(2, ['mill'], { cycleS: 50 }),
            step(3, ['wash'], { cycleS: 10 }),
            step(4, ['good']),
          ],
        },
      ],
      robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 5 },
    }),
    more,
  );
  const out = (s: number) => {
    line.floor.racks.left[s] = 0;
  };
  return { ...line, out };
}

const RAW_TO_MILL = { pick: rawPart(RACK, CAP_RACK, 0), place: slotPlace(MILL, CAP_MILL, AT_MILL) };
const MILL_TO_WASH = { pick: finished(MILL, CAP_MILL, AT_MILL), place: slotPlace(WASH, CAP_WASH, AT_WASH) };
const WASH_OUT = {
  pick: finished(WASH, CAP_WASH, AT_WASH),
  place: { station: GOOD, op: CAP_OUT, slot: NONE, choice: 3, swap: false },
};

describe('one hand', () => {
  it('fills an empty place from the rack while that has parts', () => {
    const { floor, rounds, out } = washLine(1);
    expect(rounds.answerTo(AT_MILL, true)).toEqual(RAW_TO_MILL);
    // Nothing raw comes straight to the washer.
    expect(rounds.answerTo(AT_WASH, true)).toBeNull();
    floor.stopped[MILL] = 1;
    expect(rounds.answerTo(AT_MILL, true)).toBeNull();
    floor.stopped[MILL] = 0;
    out(RACK);
    expect(rounds.answerTo(AT_MILL, true)).toBeNull();
  });

  it('carries a finished part to a free place, or waits', () => {
    const { floor, rounds, out } = washLine(1);
    put(floor, AT_MILL, CAP_MILL, FINISHED);
    expect(rounds.answerTo(AT_MILL, true)).toEqual(MILL_TO_WASH);
    put(floor, AT_WASH, CAP_WASH, FINISHED);
    expect(rounds.answerTo(AT_MILL, true)).toBeNull();
    expect(rounds.answerTo(AT_WASH, true)).toEqual(WASH_OUT);
    out(GOOD);
    expect(rounds.answerTo(AT_WASH, true)).toBeNull();
  });

  it('fills no machine that a changeover would meet at work', () => {
    const calendar = openCalendar([{ startS: 0, endS: 1000, attended: true, weekS: 1000 }]);
    const row = { station: 'mill', workS: 60, stopS: 60, people: 1 };
    // Twice the way of 5 s and 50 s of work.
    const answer = (dueS: number) =>
      washLine(1, { calendar, changeovers: [{ ...row, dueS: [dueS] }] }).rounds.answerTo(AT_MILL, true);
    expect([answer(60), answer(61)]).toEqual([null, RAW_TO_MILL]);
  });

  it('puts a part back where its next step is at the same station', () => {
    const twice = roundsOf(
      cellOf({
        stations: [station('rack', 'infeed'), station('wash', 'bench'), station('good', 'outfeed')],
        routes: [
          {
            part: 'rod',
            steps: [
              step(1, ['rack']),
              step(2, ['wash'], { cycleS: 5 }),
              step(3, ['wash'], { cycleS: 6 }),
              step(4, ['good']),
            ],
          },
        ],
        robot: { ...ROBOT, travelS: 5 },
      }),
    );
    put(twice.floor, 0, 1, FINISHED);
    expect(twice.rounds.answerTo(0, true)).toEqual({ pick: finished(1, 1, 0), place: slotPlace(1, 2, 0) });
  });

  it('starts no part that could lock the cell up', () => {
    const crossing = (hands: 1 | 2) =>
      roundsOf(crossingPresses({ ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 5 }));
    const one = crossing(1);
    expect(one.rounds.answerTo(1, true)).toEqual({ pick: rawPart(0, 4, 4), place: slotPlace(2, 5, 1) });
    put(one.floor, 0, 1, PROCESSING);
    expect(one.rounds.answerTo(1, true)).toBeNull();
    put(one.floor, 0, 1, FINISHED);
    expect(one.rounds.answerTo(0, true)).toEqual({ pick: finished(1, 1, 0), place: slotPlace(2, 2, 1) });
    // Two hands can exchange the one for the other.
    const two = crossing(2);
    put(two.floor, 0, 1, PROCESSING);
    expect(two.rounds.answerTo(1, true)).toEqual({ pick: rawPart(0, 4, 4), place: slotPlace(2, 5, 1) });
  });
});

describe('two hands, both empty', () => {
  it('fetch a raw part and exchange it for the finished one', () => {
    const { floor, rounds } = washLine(2);
    put(floor, AT_MILL, CAP_MILL, FINISHED);
    expect(rounds.answerTo(AT_MILL, true)).toEqual({
      pick: rawPart(RACK, CAP_RACK, 0),
      place: slotPlace(MILL, CAP_MILL, AT_MILL, true),
    });
    // With a part in one hand they do as one hand does.
    expect(rounds.answerTo(AT_MILL, false)).toEqual(MILL_TO_WASH);
  });

  it('without a raw part carry the finished one on', () => {
    const { floor, rounds, out } = washLine(2);
    out(RACK);
    put(floor, AT_MILL, CAP_MILL, FINISHED);
    expect(rounds.answerTo(AT_MILL, true)).toEqual(MILL_TO_WASH);
  });

  it('do nothing for a part that can go nowhere', () => {
    const { floor, rounds } = washLine(2);
    put(floor, AT_MILL, CAP_MILL, FINISHED);
    put(floor, AT_WASH, CAP_WASH, PROCESSING);
    expect(rounds.answerTo(AT_MILL, true)).toBeNull();
  });

  it('move a whole chain on from its start: raw part, mill, washer', () => {
    const { floor, rounds, out } = washLine(2);
    put(floor, AT_WASH, CAP_WASH, FINISHED);
    put(floor, AT_MILL, CAP_MILL, FINISHED);
    const start = { pick: rawPart(RACK, CAP_RACK, 0), place: slotPlace(MILL, CAP_MILL, AT_MILL, true) };
    expect(rounds.answerTo(AT_WASH, true)).toEqual(start);
    // Without a raw part the one from the mill is exchanged for the one in the washer, whichever of them calls.
    out(RACK);
    const exchange = {
      pick: finished(MILL, CAP_MILL, AT_MILL),
      place: slotPlace(WASH, CAP_WASH, AT_WASH, true),
    };
    expect(rounds.answerTo(AT_WASH, true)).toEqual(exchange);
    expect(rounds.answerTo(AT_MILL, true)).toEqual(exchange);
    out(GOOD);
    expect([rounds.answerTo(AT_WASH, true), rounds.answerTo(AT_MILL, true)]).toEqual([null, null]);
  });

  it('bring nothing into a washer whose changeover is near: what is inside goes out', () => {
    const calendar = openCalendar([{ startS: 0, endS: 1000, attended: true, weekS: 1000 }]);
    const row = { station: 'wash', workS: 60, stopS: 60, people: 1 };
    const answers = (dueS: number) => {
      const { floor, rounds, out } = washLine(2, { calendar, changeovers: [{ ...row, dueS: [dueS] }] });
      put(floor, AT_WASH, CAP_WASH, FINISHED);
      put(floor, AT_MILL, CAP_MILL, FINISHED);
      out(RACK);
      return [rounds.answerTo(AT_WASH, true), rounds.answerTo(AT_MILL, true)];
    };
    // Ten seconds of work alone, as the way is not counted; that of the mill counts twice the way of 5 s.
    const exchange = {
      pick: finished(MILL, CAP_MILL, AT_MILL),
      place: slotPlace(WASH, CAP_WASH, AT_WASH, true),
    };
    expect(answers(21)).toEqual([exchange, exchange]);
    expect(answers(20)).toEqual([exchange, null]);
    expect(answers(10)).toEqual([WASH_OUT, null]);
  });
});

describe('a part in hand', () => {
  it('is placed where there is room', () => {
    const { rounds } = washLine(2);
    expect(rounds.withPart(CAP_WASH, MILL)).toEqual({
      pick: null,
      place: slotPlace(WASH, CAP_WASH, AT_WASH),
    });
    expect(rounds.withPartRegardless(CAP_WASH)).toBeNull();
  });

  it('or exchanged for one that can go on; in the last resort for any finished one', () => {
    const { floor, rounds, out } = washLine(2);
    put(floor, AT_WASH, CAP_WASH, PROCESSING);
    expect([rounds.withPart(CAP_WASH, MILL), rounds.withPartRegardless(CAP_WASH)]).toEqual([null, null]);
    put(floor, AT_WASH, CAP_WASH, FINISHED);
    const exchange = { pick: null, place: slotPlace(WASH, CAP_WASH, AT_WASH, true) };
    expect(rounds.withPart(CAP_WASH, MILL)).toEqual(exchange);
    out(GOOD);
    expect(rounds.withPart(CAP_WASH, MILL)).toBeNull();
    expect(rounds.withPartRegardless(CAP_WASH)).toEqual(exchange);
  });
});
