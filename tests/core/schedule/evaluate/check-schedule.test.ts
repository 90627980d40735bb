// The checker accepts every schedule found and refuses every one that has been tampered with.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import { bestSchedule } from '../../../../src/core/schedule/best-schedule.js';
import {
  type CheckedSchedule,
  checkSchedule,
} from '../../../../src/core/schedule/evaluate/check-schedule.js';
import type { ScheduleEvent, ScheduleFound } from '../../../../src/core/schedule/result.js';
import { emptyCell, station, step } from '../../../support/line-cell.js';
import {
  choiceShop,
  everythingShop,
  feederShop,
  fixtureShop,
  gaugeShop,
  heldShop,
  independentShop,
  mixedShop,
  roomyShop,
  type ShopCase,
  serialShop,
} from '../../../support/random-shops.js';
import { cases } from '../../../support/size.js';

const shops: readonly [string, (seed: number) => ShopCase][] = [
  ['serial', (seed) => serialShop(seed, { machines: 3 })],
  ['two hands', (seed) => serialShop(seed, { machines: 2, hands: 2 })],
  ['longest waits', (seed) => serialShop(seed, { machines: 3, waitPct: 80 })],
  ['two hands and longest waits', (seed) => serialShop(seed, { machines: 2, hands: 2, waitPct: 80 })],
  ['three parts', (seed) => serialShop(seed, { machines: 2, parts: 3 })],
  ['alternatives', (seed) => choiceShop(seed, 1, 2)],
  ['more room', (seed) => roomyShop(seed, 1, 2, 50)],
  ['fixtures', (seed) => fixtureShop(seed, 1, 2)],
  ['held steps', (seed) => heldShop(seed, 2, 1)],
  ['gauge', (seed) => gaugeShop(seed, 1, 2)],
  ['mix', (seed) => mixedShop(seed, 1, [2, 1])],
  ['independent machines', (seed) => independentShop(seed, 2, [2, 1])],
  ['feeders', (seed) => feederShop(seed, 1, 2)],
  ['several features', everythingShop],
];

/** Every action takes a second at least, so that any overlap is one. */
function withHandling(cell: Cell): Cell {
  const longer = (timeS: number): number => timeS + 1;
  return {
    ...cell,
    travel: cell.travel.map((t) => ({ ...t, emptyS: longer(t.emptyS), loadedS: longer(t.loadedS) })),
    routes: cell.routes.map((r) => ({
      ...r,
      steps: r.steps.map((s) => ({ ...s, loadS: longer(s.loadS), unloadS: longer(s.unloadS) })),
    })),
  };
}

interface Searched {
  readonly cell: Cell;
  readonly schedule: ScheduleFound | null;
}

/** The cell of a kind and a seed with its schedule, searched once for all tests of this file. */
const searchedCell = memoize((name: string, seed: number): Searched => {
  const { cell, ways } = new Map(shops).get(name)!(seed);
  const slower = withHandling(cell);
  const partsPerPeriod = ways.reduce((sum, way) => sum + way.count, 0);
  const outcome = bestSchedule(slower, { partsPerPeriod, improvements: false });
  return { cell: slower, schedule: 'periodS' in outcome ? outcome : null };
});

function memoize<T>(work: (name: string, seed: number) => T): (name: string, seed: number) => T {
  const known = new Map<string, T>();
  return (name, seed) => {
    const key = `${name} ${seed}`;
    if (!known.has(key)) known.set(key, work(name, seed));
    return known.get(key)!;
  };
}

function eachFound(seeds: number, tell: (cell: Cell, schedule: ScheduleFound, what: string) => void): void {
  for (const [name] of shops)
    for (let seed = 1; seed <= cases(seeds); seed++) {
      const { cell, schedule } = searchedCell(name, seed);
      if (schedule !== null) tell(cell, schedule, `${name}, seed ${seed}`);
    }
}

function withEvent(schedule: ScheduleFound, index: number, change: Partial<ScheduleEvent>): CheckedSchedule {
  return { ...schedule, events: schedule.events.map((e, i) => (i === index ? { ...e, ...change } : e)) };
}

describe('schedules as found', () => {
  it('pass', () => {
    let count = 0;
    eachFound(8, (cell, schedule, what) => {
      expect(checkSchedule(cell, schedule), what).toEqual([]);
      count++;
    });
    expect(count).toBeGreaterThan(11 * cases(8));
  });

  it('place each part by the hand that picked it, and never use a hand that is full', () => {
    eachFound(8, (_, { order }, what) => {
      const swaps = new Set<boolean>();
      for (const [i, event] of order.entries()) {
        const same = event.hand === order[event.pickIndex].hand;
        if (event.pickLag === 0) expect(same, `${what}, event ${i}`).toBe(true);
        else swaps.add(!same);
      }
      // Over the end of a round either every part keeps its hand, or the two hands change their parts in every round.
      expect(swaps.size, what).toBeLessThanOrEqual(1);
      const full = new Set(order.filter((e) => e.action === 'place' && e.pickLag > 0).map((e) => e.hand));
      for (const event of order) {
        if (event.action === 'pick') expect(full.has(event.hand), what).toBe(false);
        if (event.action === 'pick') full.add(event.hand);
        if (event.action === 'place') full.delete(event.hand);
      }
    });
  });
});

describe('schedules tampered with', () => {
  it('an event so late that the robot cannot be at the next one', () => {
    eachFound(3, (cell, schedule, what) => {
      for (const [i, event] of schedule.events.entries()) {
        const next = schedule.events[i + 1];
        // Ends half a second before the next action, elsewhere: every way takes a second or more.
        if (next === undefined || next.station === event.station) continue;
        const lasts = event.endS - event.startS;
        const late = withEvent(schedule, i, { startS: next.startS - 0.5 - lasts, endS: next.startS - 0.5 });
        if (schedule.holds.some((h) => h.startS >= event.endS && h.endS <= next.startS)) continue;
        expect(checkSchedule(cell, late), `${what}, event ${i}`).not.toEqual([]);
      }
    });
  });

  it('a shorter period', () => {
    eachFound(4, (cell, schedule, what) => {
      const shorter = { ...schedule, periodS: schedule.periodS - 0.01 };
      expect(checkSchedule(cell, shorter), what).not.toEqual([]);
    });
  });

  it('an event left out, or done twice', () => {
    eachFound(3, (cell, schedule, what) => {
      for (const [i, event] of schedule.events.entries()) {
        const without = { ...schedule, events: schedule.events.filter((_, k) => k !== i) };
        expect(checkSchedule(cell, without), `${what}, without ${i}`).not.toEqual([]);
        const twice = { ...schedule, events: [...schedule.events, event] };
        expect(checkSchedule(cell, twice), `${what}, ${i} twice`).not.toEqual([]);
      }
    });
  });

  it('one hand where two are used', () => {
    let used = 0;
    eachFound(6, (cell, schedule, what) => {
      const both = schedule.order.some(
        (e, i) => e.action === 'pick' && i > 0 && schedule.order[i - 1].loadedToNext,
      );
      if (cell.robot.hands === 1 || !both) return;
      used++;
      const oneHand = { ...cell, robot: { ...cell.robot, hands: 1 as const } };
      expect(checkSchedule(oneHand, schedule), what).not.toEqual([]);
    });
    expect(used).toBeGreaterThan(5);
  });

  it('other counts of parts than made', () => {
    eachFound(2, (cell, schedule, what) => {
      for (const part of Object.keys(schedule.partsPerPeriod)) {
        const more = { ...schedule.partsPerPeriod, [part]: schedule.partsPerPeriod[part] + 1 };
        expect(checkSchedule(cell, { ...schedule, partsPerPeriod: more }), `${what}, ${part}`).not.toEqual(
          [],
        );
      }
    });
  });

  it('a slower machine or a longer way than the schedule was made for', () => {
    eachFound(4, (cell, schedule, what) => {
      // Every cycle longer by three periods: some pick comes too early.
      const slower = {
        ...cell,
        routes: cell.routes.map((r) => ({
          ...r,
          steps: r.steps.map((s, i) =>
            i === 0 || i === r.steps.length - 1 ? s : { ...s, cycleS: s.cycleS + 3 * schedule.periodS },
          ),
        })),
      };
      expect(checkSchedule(slower, schedule), what).not.toEqual([]);
      const longer = {
        ...cell,
        travel: cell.travel.map((t) => ({ ...t, emptyS: t.emptyS + 1000, loadedS: t.loadedS + 1000 })),
      };
      expect(checkSchedule(longer, schedule), what).not.toEqual([]);
    });
  });

  it('two events with their stations swapped', () => {
    eachFound(3, (cell, schedule, what) => {
      const { events } = schedule;
      for (let a = 0; a < events.length; a++)
        for (let b = a + 1; b < events.length; b++) {
          const [from, to] = [events[a], events[b]];
          if (from.station === to.station || from.action !== to.action) continue;
          const swapped = withEvent(schedule, a, { station: to.station });
          const both = {
            ...swapped,
            events: swapped.events.map((e, i) => (i === b ? { ...e, station: from.station } : e)),
          };
          // Alternatives at the same step may be swapped; other stations are not on the route.
          if (from.part === to.part && from.step === to.step) continue;
          expect(checkSchedule(cell, both), `${what}, events ${a} and ${b}`).not.toEqual([]);
        }
    });
  });
});

/** in, m1, m2, out with every way 1 s and every action 1 s; nothing to wait for. */
function plainCell(hands: 1 | 2): Cell {
  const names = ['in', 'm1', 'm2', 'out'];
  const steps = names.map((name, i) => step(i + 1, name, { loadS: i > 0 ? 1 : 0, unloadS: i < 3 ? 1 : 0 }));
  return {
    ...emptyCell,
    robot: { ...emptyCell.robot, hands, travelS: 1 },
    stations: names.map((name, i) => station(name, i === 0 ? 'infeed' : i === 3 ? 'outfeed' : 'machine')),
    travel: [],
    routes: [{ part: 'part', steps }],
  };
}

describe('a part is placed where its route goes on, by the hand that holds it', () => {
  const event = (
    startS: number,
    action: 'pick' | 'place',
    at: string,
    number: number,
    hand: 1 | 2 = 1,
  ): ScheduleEvent => ({ startS, endS: startS + 1, action, station: at, part: 'part', step: number, hand });
  const checked = (periodS: number, events: readonly ScheduleEvent[]): CheckedSchedule => ({
    periodS,
    partsPerPeriod: { part: 1 },
    events,
    holds: [],
  });
  const right = [
    event(0, 'pick', 'in', 1),
    event(2, 'place', 'm1', 2),
    event(3, 'pick', 'm1', 2),
    event(5, 'place', 'm2', 3),
    event(6, 'pick', 'm2', 3),
    event(8, 'place', 'out', 4),
  ];

  it('accepts the part carried from step to step', () => {
    expect(checkSchedule(plainCell(1), checked(10, right))).toEqual([]);
  });

  it('refuses a part from the infeed that is placed at the second machine', () => {
    const wrong = [
      event(0, 'pick', 'in', 1),
      event(2, 'place', 'm2', 3),
      event(3, 'pick', 'm2', 3),
      event(5, 'place', 'm1', 2),
      event(6, 'pick', 'm1', 2),
      event(8, 'place', 'out', 4),
    ];
    expect(checkSchedule(plainCell(1), checked(10, wrong))).not.toEqual([]);
  });

  it('refuses a place by the empty hand', () => {
    const wrong = right.map((e, i) => (i === 3 ? { ...e, hand: 2 as const } : e));
    expect(checkSchedule(plainCell(2), checked(10, right))).toEqual([]);
    expect(checkSchedule(plainCell(2), checked(10, wrong))).not.toEqual([]);
  });

  it('refuses a second hand on a robot with one', () => {
    const wrong = right.map((e) => ({ ...e, hand: 2 as const }));
    expect(checkSchedule(plainCell(1), checked(10, wrong))).not.toEqual([]);
  });

  it('refuses handling shorter than the table says', () => {
    const wrong = right.map((e, i) => (i === 0 ? { ...e, endS: e.startS + 0.2 } : e));
    expect(checkSchedule(plainCell(1), checked(10, wrong))).not.toEqual([]);
  });

  it('refuses an event at a station that its step does not name', () => {
    const wrong = right.map((e, i) => (i === 5 ? { ...e, station: 'in' } : e));
    expect(checkSchedule(plainCell(1), checked(10, wrong))).not.toEqual([]);
  });
});

describe('an infeed that two kinds of parts share', () => {
  const cell: Cell = {
    ...emptyCell,
    stations: [
      station('in', 'infeed'),
      station('out', 'outfeed'),
      station('m1', 'machine'),
      station('m2', 'machine'),
    ],
    travel: ['in', 'out', 'm1', 'm2'].flatMap((from, a, all) =>
      all.flatMap((to, b) => (a === b ? [] : [{ from, to, emptyS: 2, loadedS: 2 }])),
    ),
    parts: ['p0', 'p1'].map((part) => ({
      part,
      contribution: null,
      perShift: null,
      ratio: 1,
      yieldPct: 100,
    })),
    routes: ['m1', 'm2'].map((at, i) => ({
      part: `p${i}`,
      steps: [
        step(1, 'in', { unloadS: 1, cycleS: 30 }),
        step(2, at, { cycleS: 20, loadS: 1, unloadS: 1 }),
        step(3, 'out', { loadS: 1 }),
      ],
    })),
  };
  const found = bestSchedule(cell) as ScheduleFound;

  it('paces them together', () => {
    expect(checkSchedule(cell, found)).toEqual([]);
    expect(Object.values(found.partsPerPeriod).reduce((sum, n) => sum + n, 0) * 31).toBeCloseTo(
      found.periodS,
    );
  });

  it('refuses a cell that asks for more time after the other kind', () => {
    const slower: Cell = {
      ...cell,
      stations: cell.stations.map((s) => (s.name === 'in' ? { ...s, readyS: 5 } : s)),
    };
    expect(checkSchedule(slower, found).join()).toContain('in: it serves again');
  });

  it('lets a part after which it needs no time wait for the time after the other kind', () => {
    const uneven: Cell = {
      ...cell,
      routes: cell.routes.map((route, r) =>
        r === 0 ? route : { ...route, steps: [{ ...route.steps[0]!, cycleS: 0 }, ...route.steps.slice(1)] },
      ),
    };
    const best = bestSchedule(uneven) as ScheduleFound;
    expect(checkSchedule(uneven, best)).toEqual([]);
    // By hand: pick p0 1, wait 30, pick p1 1, carry it 2, load 1, come back 2.
    expect(best.partsPerPeriod.p0! * 37).toBeCloseTo(best.periodS, 6);
    expect(best.proven).toBe(true);
    const hasty = {
      ...best,
      events: best.events.map((e) =>
        e.part === 'p1' && e.station === 'in' ? { ...e, startS: e.startS - 5, endS: e.endS - 5 } : e,
      ),
    };
    expect(checkSchedule(uneven, hasty).join()).toContain('in: it serves again');
  });
});
