// Undo and redo: any steps taken back and done again give what was there.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { begun, redone, stepped, undone } from '../../src/browser/state/history.js';

test('1,000 steps are taken back and done again, the 1,001st is forgotten', () => {
  let history = begun(0);
  for (let k = 1; k <= 1001; k++) history = stepped(history, k);
  for (let k = 0; k < 2000; k++) history = undone(history);
  expect(history.now).toBe(1);
  for (let k = 0; k < 2000; k++) history = redone(history);
  expect(history.now).toBe(1001);
});

test('a step that changes nothing is none, and a new one ends what could be done again', () => {
  const one = stepped(begun('a'), 'b');
  expect(stepped(one, 'b')).toEqual(one);
  expect(redone(stepped(undone(one), 'c')).now).toBe('c');
});

test('any walk of steps, undo and redo stays on the states that were made', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom('step', 'undo', 'redo')), (walk) => {
      let history = begun(0);
      const trail = [0];
      let at = 0;
      walk.forEach((what, k) => {
        if (what === 'step') {
          trail.length = at + 1;
          trail.push(k + 1);
          at += 1;
          history = stepped(history, k + 1);
        } else if (what === 'undo') {
          at = Math.max(0, at - 1);
          history = undone(history);
        } else {
          at = Math.min(trail.length - 1, at + 1);
          history = redone(history);
        }
        expect(history.now).toBe(trail[at]);
      });
    }),
  );
});
