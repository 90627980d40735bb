/** The list of calls: by hand, and against a plain list. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CallList } from '../../../src/core/floor/call-list.js';

/** The slots from the head on, and no more of them than there can be. */
function listed(calls: CallList): number[] {
  const found: number[] = [];
  for (let slot = calls.head; slot >= 0 && found.length <= 9; slot = calls.next[slot]) found.push(slot);
  return found;
}

it('by hand: in the order of the calls; a second call moves a slot to the end', () => {
  const calls = new CallList(4);
  expect(listed(calls)).toEqual([]);
  const after = (act: () => void): number[] => {
    act();
    return listed(calls);
  };
  expect(after(() => calls.add(2))).toEqual([2]);
  expect(after(() => calls.add(0))).toEqual([2, 0]);
  expect(after(() => calls.add(3))).toEqual([2, 0, 3]);
  expect(after(() => calls.add(2))).toEqual([0, 3, 2]);
  expect(after(() => calls.remove(3))).toEqual([0, 2]);
  expect(after(() => calls.remove(3))).toEqual([0, 2]);
  expect(after(() => calls.remove(2))).toEqual([0]);
  expect(after(() => calls.add(1))).toEqual([0, 1]);
  expect(after(() => calls.remove(0))).toEqual([1]);
  expect(after(() => calls.remove(1))).toEqual([]);
  expect(after(() => calls.add(3))).toEqual([3]);
});

it('is a plain list from which a slot is taken before it is put at the end', () => {
  const acts = fc.array(fc.tuple(fc.boolean(), fc.nat(7)), { maxLength: 60 });
  fc.assert(
    fc.property(acts, (list) => {
      const calls = new CallList(8);
      let plain: number[] = [];
      for (const [adds, slot] of list) {
        plain = plain.filter((s) => s !== slot);
        if (adds) plain.push(slot);
        if (adds) calls.add(slot);
        else calls.remove(slot);
        expect(listed(calls)).toEqual(plain);
      }
    }),
  );
});
