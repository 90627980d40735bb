/** A floor set up by hand for tests: parts put into slots in any state, without a robot. */
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { type FloorOptions, ShopFloor } from '../../../src/core/floor/shop-floor.js';
import { FINISHED } from '../../../src/core/floor/slot-state.js';
import type { Cell } from '../../../src/core/model/cell.js';

export function bareFloor(cell: Cell, more: Partial<FloorOptions> = {}): ShopFloor {
  return new ShopFloor(compileCell(cell), {
    ...{ calendar: null, operators: 1, seed: 1, replication: 0, trace: null, chance: false, causes: false },
    changeovers: [],
    ...more,
  });
}

/** Puts a part that has come to an operation into a slot, in a state; a finished one calls the robot. */
export function put(floor: ShopFloor, slot: number, op: number, state: number): void {
  const s = floor.cell.slotStation[slot];
  if (floor.slotOp[slot] < 0) floor.freeSlots[s]--;
  floor.slotOp[slot] = op;
  floor.slotState[slot] = state;
  if (state === FINISHED) floor.calls.add(slot);
  else floor.calls.remove(slot);
}
