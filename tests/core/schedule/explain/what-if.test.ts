// What a change of the cell would bring: gains by the goal, and why a change that was tried brings nothing.
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import { bestSchedule } from '../../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound, WhatIf } from '../../../../src/core/schedule/result.js';
import { readCell } from '../../../../src/tables/read-cell.js';

interface Changes {
  readonly found: ScheduleFound;
  readonly place: WhatIf;
  readonly hand: WhatIf;
}

function changesOf(cell: Cell): Changes {
  const found = bestSchedule(cell, { whatIf: true, improvements: false });
  if (!('order' in found)) throw new Error('a cell without a sequence');
  const that = (words: string) => found.whatIf.find((w) => w.change.includes(words))!;
  return { found, place: that('a buffer at'), hand: that('dual gripper') };
}

/** One machine of 200 s, one hand, a second for each pick and place; the racks so far away. */
const oneMachine = (infeedS: number, outfeedS: number): Cell =>
  readCell({
    'stations.csv': 'station,kind\nin,infeed\nmill,machine\nout,outfeed\n',
    'routes.csv': 'part,step,stations,cycle_s,load_s,unload_s\na,1,in,,,1\na,2,mill,200,1,1\na,3,out,,1,\n',
    'robot.csv': 'setting,value\nhands,1\n',
    'travel.csv': `from,to,empty_s\nin,mill,${infeedS}\nin,out,${infeedS}\nmill,out,${outfeedS}\n`,
  });

describe('one machine', () => {
  const far = changesOf(oneMachine(60, 2));
  const near = changesOf(oneMachine(10, 10));

  test('with the raw parts far away, a place beside it brings what the long way costs', () => {
    // By hand. Now: 200 s, pick 1, to the outfeed 2, place 1, to the infeed 60, pick 1, to the mill 60, place 1.
    expect(far.found.periodS).toBeCloseTo(326, 6);
    // With a part beside: 200 s, pick 1, outfeed 2, place 1, beside 2, pick 1, mill 2, place 1.
    expect(far.place.partsPerH).toBeCloseTo(3600 / 210, 6);
    expect(far.place.gainPerH).toBeCloseTo(3600 / 210 - 3600 / 326, 6);
    expect(far.place.goalGainPct).toBeCloseTo(100 * (326 / 210 - 1), 6);
    expect(far.place).toMatchObject({ proven: true, noGain: null });
  });

  test('where every way is as long as any other, a place beside it brings nothing, and the reason is told', () => {
    // As above: 200 + 1 + 10 + 1 + 10 + 1 + 10 + 1 either way.
    expect(near.found.periodS).toBeCloseTo(234, 6);
    expect(near.place.goalGainPct).toBeCloseTo(0, 6);
    expect(near.place.noGain).toBe('the extra handling costs as much time as it saves, or more');
  });

  test('a second hand that brings something has no such reason', () => {
    expect(near.hand.gainPerH).toBeGreaterThan(0);
    expect(near.hand.noGain).toBeNull();
  });
});

test('gains go by what the sequence is chosen for, not by the number of parts', () => {
  const cell = readCell({
    'stations.csv': 'station,kind\nin,infeed\nm1,machine\nm2,machine\nout,outfeed\n',
    'routes.csv':
      'part,step,stations,cycle_s,load_s,unload_s\na,1,in,,,5\na,2,m1,60,5,5\na,3,out,,5,\nb,1,in,,,5\nb,2,m2,200,5,5\nb,3,out,,5,\n',
    'robot.csv': 'setting,value\nhands,1\ntravel_s,10\n',
    'parts.csv': 'part,contribution\na,1\nb,9\n',
  });
  const { found, hand } = changesOf(cell);
  const worth = (of: Readonly<Record<string, number>>) => of.a! + 9 * of.b!;
  const two = bestSchedule({ ...cell, robot: { ...cell.robot, hands: 2, indexS: 2 } });
  if (!('order' in two)) throw new Error('a cell without a sequence');
  expect(hand.goalGainPct).toBeCloseTo(100 * (worth(two.partsPerH) / worth(found.partsPerH) - 1), 6);
});
