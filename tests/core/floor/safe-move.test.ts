/** Which moves one hand may make among stations that can block each other, by hand: hubs and levers cross two presses. */
import { describe, expect, it } from 'vitest';
import { safeMoveOf } from '../../../src/core/floor/safe-move.js';
import { FINISHED, PROCESSING } from '../../../src/core/floor/slot-state.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
import { bareFloor, put } from './bare-floor.js';

/** A hub goes over the first press, the brush and the second press; a lever the other way; a pin only over the saws. */
function crossing(hands: 1 | 2 = 1, places = 1, alternative = false): Cell {
  return cellOf({
    stations: [
      station('rack', 'infeed'),
      station('saw', 'machine'),
      station('press_1', 'machine', { capacityParts: places }),
      station('press_2', 'machine'),
      station('press_3', 'machine'),
      station('brush', 'held'),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'hub',
        steps: [
          step(1, ['rack']),
          step(2, ['press_1'], { cycleS: 9 }),
          step(3, ['brush']),
          step(4, ['press_2'], { cycleS: 9 }),
          step(5, ['good']),
        ],
      },
      {
        part: 'lever',
        steps: [
          step(1, ['rack']),
          step(2, ['press_2'], { cycleS: 9 }),
          step(3, alternative ? ['press_1', 'press_3'] : ['press_1'], { cycleS: 9 }),
          step(4, ['good']),
        ],
      },
      { part: 'pin', steps: [step(1, ['rack']), step(2, ['saw'], { cycleS: 9 }), step(3, ['good'])] },
    ],
    robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 5 },
  });
}

const [PRESS_1, PRESS_2, SAW] = [2, 3, 1];
const [HUB_FIRST, HUB_SECOND, HUB_OUT, LEVER_FIRST, LEVER_SECOND, PIN_SAW] = [1, 3, 4, 6, 7, 10];
const FROM_RACK = -1;

describe('one hand', () => {
  it('starts a part into an empty cell, and one that goes the same way behind it', () => {
    const floor = bareFloor(crossing());
    const safe = safeMoveOf(floor)!;
    expect(safe.allows(FROM_RACK, HUB_FIRST, PRESS_1)).toBe(true);
    put(floor, 2, HUB_SECOND, PROCESSING);
    expect(safe.allows(FROM_RACK, HUB_FIRST, PRESS_1)).toBe(true);
  });

  it('starts none that would meet another head on', () => {
    const floor = bareFloor(crossing());
    const safe = safeMoveOf(floor)!;
    put(floor, 1, HUB_FIRST, PROCESSING);
    expect(safe.allows(FROM_RACK, LEVER_FIRST, PRESS_2)).toBe(false);
    // Asked again, the answer is the same; a pin is in nobody's way.
    expect(safe.allows(FROM_RACK, LEVER_FIRST, PRESS_2)).toBe(false);
    expect(safe.allows(FROM_RACK, PIN_SAW, SAW)).toBe(true);
    // A hub that is already at its last press only has to go out.
    put(floor, 1, LEVER_SECOND, PROCESSING);
    expect(safe.allows(FROM_RACK, LEVER_FIRST, PRESS_2)).toBe(true);
  });

  it('moves a part on where its old place is free for the other', () => {
    const floor = bareFloor(crossing());
    const safe = safeMoveOf(floor)!;
    put(floor, 1, HUB_FIRST, FINISHED);
    expect(safe.allows(1, HUB_SECOND, PRESS_2)).toBe(true);
    put(floor, 1, HUB_FIRST, FINISHED);
    put(floor, 2, LEVER_FIRST, FINISHED);
    // Locked already: taking one out to the outfeed is no move of theirs, but leaves the other its way.
    expect(safe.allows(1, HUB_OUT, 6)).toBe(true);
    expect(safe.allows(FROM_RACK, PIN_SAW, SAW)).toBe(false);
  });

  it('with two places in one press both find their way', () => {
    const floor = bareFloor(crossing(1, 2));
    const safe = safeMoveOf(floor)!;
    put(floor, 1, HUB_FIRST, PROCESSING);
    expect(safe.allows(FROM_RACK, LEVER_FIRST, PRESS_2)).toBe(true);
    put(floor, 2, HUB_FIRST, PROCESSING);
    expect(safe.allows(FROM_RACK, LEVER_FIRST, PRESS_2)).toBe(false);
  });

  it('so they do where the lever can go to another press', () => {
    const floor = bareFloor(crossing(1, 1, true));
    const safe = safeMoveOf(floor)!;
    put(floor, 1, HUB_FIRST, PROCESSING);
    expect(safe.allows(FROM_RACK, LEVER_FIRST, PRESS_2)).toBe(true);
  });
});

it('two hands need no such rule, nor does a cell without a ring', () => {
  expect(safeMoveOf(bareFloor(crossing(2)))).toBeNull();
  const oneWay = { ...crossing(), routes: crossing().routes.filter((r) => r.part !== 'lever') };
  expect(safeMoveOf(bareFloor(oneWay))).toBeNull();
});

it('a part that stays at its station needs no other place there', () => {
  const twice = cellOf({
    stations: [station('rack', 'infeed'), station('wash', 'bench'), station('good', 'outfeed')],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack']),
          step(2, ['wash'], { cycleS: 9 }),
          step(3, ['wash'], { cycleS: 9 }),
          step(4, ['good']),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 5 },
  });
  expect(safeMoveOf(bareFloor(twice))!.allows(FROM_RACK, 1, 1)).toBe(true);
});
