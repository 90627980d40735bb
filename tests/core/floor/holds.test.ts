/** Stretches in which something waited for an operator who was not there, by hand. */
import { expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { Holds } from '../../../src/core/floor/holds.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const [RACK, GOOD] = [0, 3];
const LATHE = 0;
const MILL = 1;

function holds() {
  const stop = { everyH: null, minutes: 5, operator: true };
  const cell = compileCell(
    cellOf({
      stations: [
        station('rack', 'infeed'),
        station('lathe', 'machine'),
        station('mill', 'machine'),
        station('good', 'outfeed'),
      ],
      routes: [
        {
          part: 'pin',
          steps: [step(1, ['rack']), step(2, ['lathe'], { cycleS: 9 }), step(3, ['mill']), step(4, ['good'])],
        },
      ],
      robot: { ...ROBOT, travelS: 1 },
      stops: [
        { ...stop, station: 'lathe', name: 'tool', everyParts: 9 },
        { ...stop, station: 'mill', name: 'gauge', everyParts: 7 },
        { ...stop, station: 'rack', name: 'pallets', everyParts: null, everyH: 2 },
      ],
    }),
  );
  const slotStop = new Int32Array(2).fill(-1);
  return { held: new Holds(cell, slotStop), slotStop };
}

it('a planned stop waits under its own name', () => {
  const { held, slotStop } = holds();
  slotStop[MILL] = 1;
  held.slotWaits(MILL, 100);
  const hold = { cause: 'waits for operator', station: 'mill', stop: 'gauge', fromS: 100 };
  expect(held.notOver()).toEqual([{ ...hold, untilS: Number.POSITIVE_INFINITY }]);
  held.slotIsServed(MILL, 160);
  expect([held.over, held.notOver()]).toEqual([[{ ...hold, untilS: 160 }], []]);
});

it('a rack that has run out is empty, an outfeed full, and one whose stop is due by the clock waits for that', () => {
  const { held } = holds();
  held.rackWaits(RACK, 10, -1);
  held.rackWaits(GOOD, 20, -1);
  held.rackIsServed(RACK, 15);
  held.rackIsServed(GOOD, 40);
  held.rackWaits(RACK, 50, 2);
  held.rackIsServed(RACK, 60);
  expect(held.over).toEqual([
    { cause: 'rack empty', station: 'rack', stop: '', fromS: 10, untilS: 15 },
    { cause: 'rack full', station: 'good', stop: '', fromS: 20, untilS: 40 },
    { cause: 'waits for operator', station: 'rack', stop: 'pallets', fromS: 50, untilS: 60 },
  ]);
  expect(held.notOver()).toEqual([]);
});

it('slots come before racks, and a wait of a second is none', () => {
  const { held, slotStop } = holds();
  slotStop[LATHE] = 0;
  held.rackWaits(RACK, 10, -1);
  held.slotWaits(LATHE, 30);
  expect(held.notOver().map((h) => h.station)).toEqual(['lathe', 'rack']);
  held.slotIsServed(LATHE, 31);
  held.rackIsServed(RACK, 11.5);
  expect(held.over.map((h) => h.station)).toEqual(['rack']);
});
