/** Operators and their calls, by hand. */
import { describe, expect, it } from 'vitest';
import { EventClock } from '../../../src/core/floor/event-clock.js';
import { type OpenWeek, openCalendar } from '../../../src/core/floor/open-calendar.js';
import { CALL_RACK, CALL_REPAIR, CALL_STOP, People } from '../../../src/core/floor/people.js';

const NEVER = Number.POSITIVE_INFINITY;
/** Operators' timers begin at 3. */
const FIRST = 3;

/** Every repair takes 10 s, every planned stop 20, every rack 5; somebody who is free comes after `responseS`. */
function crew(most: number, { responseS = 0, week = null as OpenWeek | null } = {}) {
  const told: string[] = [];
  const clock = new EventClock(8);
  const people = new People(clock, FIRST, most, 4, week, {
    responseS: () => responseS,
    begin: (call, target) => {
      told.push(`begin ${call} at ${target}`);
      return [10, 20, 5][call];
    },
    end: (call, target) => told.push(`end ${call} at ${target}`),
  });
  const timers = () => [...clock.times.subarray(FIRST, FIRST + Math.max(1, most))];
  return { people, told, clock, timers };
}

describe('one operator', () => {
  it('takes calls one after another, in the order in which they came', () => {
    const { people, told, timers } = crew(1);
    expect([people.present, people.anyFree, people.queueLength]).toEqual([1, true, 0]);
    people.callTo(CALL_REPAIR, 7, 100);
    expect([timers(), people.anyFree, people.queueLength]).toEqual([[110], false, 0]);
    people.callTo(CALL_RACK, 2, 103);
    people.callTo(CALL_STOP, 5, 104);
    expect([told, people.queueLength]).toEqual([['begin 0 at 7'], 2]);
    people.onTimer(0, 110);
    expect(told).toEqual(['begin 0 at 7', 'end 0 at 7', 'begin 2 at 2']);
    expect([timers(), people.busyS, people.queueLength]).toEqual([[115], 10, 1]);
    people.onTimer(0, 115);
    expect([timers(), people.busyS]).toEqual([[135], 15]);
    people.onTimer(0, 135);
    expect([timers(), people.busyS, people.anyFree, people.queueLength]).toEqual([[NEVER], 35, true, 0]);
    expect(told.slice(3)).toEqual(['end 2 at 2', 'begin 1 at 5', 'end 1 at 5']);
  });

  it('more calls than places in a row come round again', () => {
    const { people, told } = crew(1);
    let now = 0;
    for (let round = 0; round < 3; round++) {
      for (let target = 0; target < 4; target++) people.callTo(CALL_RACK, 10 * round + target, now);
      for (let target = 0; target < 4; target++) {
        now += 5;
        people.onTimer(0, now);
      }
    }
    const begun = told.filter((line) => line.startsWith('begin')).map((line) => Number(line.split(' ')[3]));
    expect(begun).toEqual([0, 1, 2, 3, 10, 11, 12, 13, 20, 21, 22, 23]);
    expect(people.busyS).toBe(60);
  });

  it('comes after the time to respond, which counts as time in a call', () => {
    const { people, told, timers } = crew(1, { responseS: 30 });
    people.callTo(CALL_REPAIR, 7, 100);
    expect([told, timers()]).toEqual([[], [130]]);
    people.onTimer(0, 130);
    expect([told, timers()]).toEqual([['begin 0 at 7'], [140]]);
    people.onTimer(0, 140);
    expect([told[1], people.busyS]).toEqual(['end 0 at 7', 40]);
  });

  it('counts a repair under way as any other call', () => {
    const { people } = crew(1);
    people.callTo(CALL_REPAIR, 1, 100);
    people.settle(104);
    expect(people.busyS).toBe(4);
  });

  it('counts a call under way up to a moment, and no second twice', () => {
    const { people } = crew(1);
    people.callTo(CALL_STOP, 1, 100);
    people.settle(106);
    expect(people.busyS).toBe(6);
    people.settle(109);
    expect(people.busyS).toBe(9);
    people.onTimer(0, 120);
    expect(people.busyS).toBe(20);
    people.settle(200);
    expect(people.busyS).toBe(20);
  });
});

describe('two operators', () => {
  it('each take a call, and the first who is free the next', () => {
    const { people, told, timers } = crew(2);
    people.callTo(CALL_STOP, 1, 0);
    people.callTo(CALL_REPAIR, 2, 0);
    people.callTo(CALL_RACK, 3, 1);
    expect([timers(), people.anyFree, people.queueLength]).toEqual([[20, 10], false, 1]);
    people.onTimer(1, 10);
    expect([timers(), told.at(-1)]).toEqual([[20, 15], 'begin 2 at 3']);
    people.onTimer(1, 15);
    expect([timers(), people.anyFree]).toEqual([[20, NEVER], true]);
  });

  it('each come after their own time, to two repairs at once', () => {
    const { people, timers } = crew(2, { responseS: 30 });
    people.callTo(CALL_REPAIR, 1, 0);
    people.callTo(CALL_REPAIR, 2, 5);
    expect(timers()).toEqual([30, 35]);
    people.onTimer(1, 35);
    expect(timers()).toEqual([30, 45]);
  });

  it('are told apart by what each does, and by the calls that wait', () => {
    const { people } = crew(2, { responseS: 1 });
    const values = () => {
      const found: number[] = [];
      people.signature((value) => found.push(value));
      return found;
    };
    expect(values()).toEqual([-1, 0, -1, 0]);
    people.callTo(CALL_STOP, 6, 0);
    expect(values()).toEqual([CALL_STOP, 6, -1, 0]);
    people.onTimer(0, 1);
    people.callTo(CALL_RACK, 4, 2);
    people.callTo(CALL_RACK, 5, 2);
    people.callTo(CALL_REPAIR, 3, 2);
    expect(values()).toEqual([CALL_STOP, 6.5, CALL_RACK, 4, 2e6 + 5, 3]);
    people.onTimer(0, 21);
    people.onTimer(0, 22);
    people.onTimer(0, 27);
    // The repair at 3 is the last one, and the operator at 4 is still on the way there.
    expect(values()).toEqual([CALL_REPAIR, 3, CALL_RACK, 4]);
    people.onTimer(0, 28);
    people.onTimer(0, 38);
    expect(values()).toEqual([-1, 0, CALL_RACK, 4]);
  });
});

describe('by the hours of a week', () => {
  /** Two people to 100, one of them in a break from 40 to 60 in which nobody is there; shut to 200. */
  const week = () =>
    openCalendar([
      { startS: 0, endS: 40, attended: true, operators: 2, weekS: 200 },
      { startS: 40, endS: 60, attended: true, operators: 0, weekS: 200 },
      { startS: 60, endS: 100, attended: true, operators: 1, weekS: 200 },
    ]);

  it('nobody begins before somebody is there', () => {
    const { people, timers, told } = crew(2, { week: week() });
    expect(people.present).toBe(2);
    people.change(0, 40);
    people.callTo(CALL_REPAIR, 1, 45);
    people.callTo(CALL_REPAIR, 2, 46);
    expect([people.anyFree, people.queueLength, told]).toEqual([false, 2, []]);
    people.change(1, 60);
    expect([timers(), people.queueLength]).toEqual([[70, NEVER], 1]);
  });

  it('as many calls wait as there are places, and none is lost', () => {
    const { people, told } = crew(1, { week: week() });
    people.change(0, 40);
    for (const target of [1, 2, 3, 4]) people.callTo(CALL_RACK, target, 45);
    expect(people.queueLength).toBe(4);
    people.change(1, 60);
    for (const now of [65, 70, 75, 80]) people.onTimer(0, now);
    expect(told.filter((line) => line.startsWith('begin'))).toEqual(
      [1, 2, 3, 4].map((at) => `begin 2 at ${at}`),
    );
  });

  it('at first as many are there as in the first hours of the week', () => {
    const spans = [20, 30].map((endS, i) => ({
      startS: 20 * i,
      endS,
      attended: true,
      operators: i + 1,
      weekS: 50,
    }));
    expect(crew(2, { week: openCalendar(spans) }).people.present).toBe(1);
  });

  it('work that is begun rests in a break and while the cell is shut', () => {
    const { people, timers } = crew(2, { week: week() });
    people.callTo(CALL_STOP, 1, 30);
    expect(timers()[0]).toBe(70);
    people.onTimer(0, 70);
    expect(people.busyS).toBe(20);
    people.callTo(CALL_STOP, 1, 95);
    expect(timers()[0]).toBe(215);
    people.settle(210);
    expect(people.busyS).toBe(20 + 15);
  });

  it('no more are there than there are timers for', () => {
    const { people } = crew(1, { week: week() });
    expect(people.present).toBe(1);
    people.change(3, 60);
    expect(people.present).toBe(1);
  });
});
