// Each rule of a played robot does what its name says: the cell of the simulation's rules, worked by hand.
import { expect, test } from 'vitest';
import { goalOf } from '../../../../src/core/schedule/plan/weights.js';
import { ruleChooser } from '../../../../src/core/schedule/play/play-rules.js';
import { playRun } from '../../../../src/core/schedule/play/play-run.js';
import { playSpace } from '../../../../src/core/schedule/play/play-space.js';
import { threeParts } from '../../../support/three-parts.js';

test.each([
  // All machines call at 0, in the order of the table.
  ['first', ['mill_a', 'mill_b', 'mill_c']],
  // From the rack of a, then from the machine of a: that of c is nearer than that of b.
  ['nearest', ['mill_a', 'mill_c', 'mill_b']],
  // The cycles are 1000 s, 2000 s and 3000 s.
  ['longest', ['mill_c', 'mill_b', 'mill_a']],
] as const)('`%s` fills empty machines in the order %j', (rule, order) => {
  const cell = threeParts([1000, 2000, 3000]);
  const space = playSpace(cell, goalOf(cell));
  const { plan } = space;
  const filled = playRun(space, ruleChooser(space, rule, false), 6).events.flatMap((event) => {
    const { action, station } = plan.events[event]!;
    const { name } = plan.stations[station]!;
    return action === 'place' && name.startsWith('mill') ? [name] : [];
  });
  expect(filled.slice(0, 3)).toEqual(order);
});
