// Small random cells from a seed, each with the parts of one period, for every feature of the model.
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Cell, Robot, Route, Station, Step, TravelRow } from '../../src/core/model/cell.js';
import { emptyCell, station, step } from './line-cell.js';
import type { PartWay } from './listed-orders.js';

export type Draw = (from: number, to: number) => number;

export interface ShopCase {
  readonly cell: Cell;
  readonly ways: readonly PartWay[];
}

export function drawFrom(seed: number): Draw {
  const random = xoroshiro128plus(seed * 7919 + 17);
  for (let i = 0; i < 20; i++) random.next();
  return (from, to) => uniformInt(random, from, to);
}

/** Free travel times (no triangle rule, unlike ways there and back) or those of a floor plan; carrying may be slower. */
export function randomTravel(draw: Draw, stations: readonly Station[]): TravelRow[] {
  const free = draw(0, 2) === 0;
  const slower = draw(0, 1) === 0 ? 0 : 4;
  const spots = stations.map(() => ({ x: draw(0, 8), y: draw(0, 5) }));
  return stations.flatMap((from, a) =>
    stations.flatMap((to, b) => {
      if (a === b) return [];
      const apart = Math.abs(spots[a].x - spots[b].x) + Math.abs(spots[a].y - spots[b].y);
      const emptyS = free ? draw(0, 12) : apart;
      return [{ from: from.name, to: to.name, emptyS, loadedS: emptyS + draw(0, slower) }];
    }),
  );
}

export function makeCell(
  draw: Draw,
  robot: Partial<Robot>,
  stations: readonly Station[],
  routes: readonly Route[],
): Cell {
  const travel = randomTravel(draw, stations);
  return { ...emptyCell, robot: { ...emptyCell.robot, ...robot }, stations, routes, travel };
}

/** Steps in order: the infeed, what is given, the outfeed; times drawn. */
export function drawRoute(
  draw: Draw,
  part: string,
  stops: readonly { readonly at: string | readonly string[]; readonly more?: Partial<Step> }[],
  longestCycleS = 50,
): Route {
  const inner = stops.map(({ at, more }, i) =>
    step(i + 2, at, { cycleS: draw(0, longestCycleS), loadS: draw(0, 5), unloadS: draw(0, 5), ...more }),
  );
  return {
    part,
    steps: [
      step(1, 'in', { unloadS: draw(0, 5) }),
      ...inner,
      step(stops.length + 2, 'out', { loadS: draw(0, 5) }),
    ],
  };
}

export const ends: readonly Station[] = [station('in', 'infeed'), station('out', 'outfeed')];

/** Machines m1, m2, ... with ready and close times. */
export function drawMachines(draw: Draw, count: number, more: Partial<Station> = {}): Station[] {
  return Array.from({ length: count }, (_, i) =>
    station(`m${i + 1}`, 'machine', { readyS: draw(0, 3), closeS: draw(0, 3), ...more }),
  );
}

const serialWay = (route: Route, count: number, at = 0): PartWay => ({
  route: at,
  stations: route.steps.map((s) => s.stations[0]),
  count,
});

export interface SerialShape {
  readonly machines: number;
  readonly hands?: 1 | 2;
  readonly parts?: number;
  /** Chance of a longest wait at a machine, in percent. */
  readonly waitPct?: number;
  readonly waitToS?: number;
}

export function serialShop(seed: number, shape: SerialShape): ShopCase {
  const draw = drawFrom(seed);
  const machines = drawMachines(draw, shape.machines);
  const hands = shape.hands ?? 1;
  const stops = machines.map((m) => ({
    at: m.name,
    more: { maxWaitS: draw(1, 100) <= (shape.waitPct ?? 0) ? draw(0, shape.waitToS ?? 20) : null },
  }));
  const route = drawRoute(draw, 'part', stops);
  const cell = makeCell(
    draw,
    { hands, indexS: hands === 2 ? draw(0, 3) : 0 },
    [...ends, ...machines],
    [route],
  );
  return { cell, ways: [serialWay(route, shape.parts ?? 1)] };
}

/** One step with a choice of two machines, before or after a common one; `parts` are split as drawn. */
export function choiceShop(seed: number, hands: 1 | 2, parts: number): ShopCase {
  const draw = drawFrom(seed);
  const machines = drawMachines(draw, 3);
  const common = draw(0, 2);
  const choice = { at: ['m1', 'm2'] };
  const stops = common === 0 ? [choice] : common === 1 ? [choice, { at: 'm3' }] : [{ at: 'm3' }, choice];
  const route = drawRoute(draw, 'part', stops);
  const cell = makeCell(draw, { hands, indexS: draw(0, 3) }, [...ends, ...machines], [route]);
  const first = draw(0, parts);
  return { cell, ways: choiceWays(cell, first, parts - first) };
}

/** So many parts by the first of the alternatives, so many by the second. */
export function choiceWays(cell: Cell, first: number, second: number): PartWay[] {
  return [first, second].flatMap((count, choice) => {
    const stations = cell.routes[0].steps.map((s) => s.stations[Math.min(choice, s.stations.length - 1)]);
    return count > 0 ? [{ route: 0, stations, count }] : [];
  });
}

/** A machine and a buffer that hold more than one part. */
export function roomyShop(seed: number, hands: 1 | 2, parts: number, waitPct = 0): ShopCase {
  const draw = drawFrom(seed);
  const roomy = station('m1', 'machine', { capacityParts: draw(2, 3), closeS: draw(0, 2) });
  const buffer = station('rack', 'buffer', { capacityParts: draw(1, 3) });
  const plain = station('m2', 'machine');
  const wait = (): { maxWaitS: number | null } => ({
    maxWaitS: draw(1, 100) <= waitPct ? draw(0, 25) : null,
  });
  const shape = draw(0, 2);
  const rack = { at: 'rack', more: { cycleS: 0 } };
  const oven = { at: 'm1', more: { cycleS: draw(20, 90), ...wait() } };
  const stops = shape === 0 ? [oven] : shape === 1 ? [oven, rack] : [rack, { at: 'm2', more: wait() }];
  const route = drawRoute(draw, 'part', stops);
  const cell = makeCell(draw, { hands, indexS: draw(0, 2) }, [...ends, roomy, buffer, plain], [route]);
  return { cell, ways: [serialWay(route, parts)] };
}

/** A machine that starts when two parts are in. */
export function fixtureShop(seed: number, hands: 1 | 2, parts: number, waitPct = 0): ShopCase {
  const draw = drawFrom(seed);
  const fixture = station('m1', 'machine', { capacityParts: 2, closeS: draw(0, 3), readyS: draw(0, 3) });
  const stops: { at: string; more?: Partial<Step> }[] = [
    { at: 'm1', more: { partsPerCycle: 2, maxWaitS: draw(1, 100) <= waitPct ? draw(0, 40) : null } },
  ];
  if (draw(0, 1) === 1) stops.splice(draw(0, 1), 0, { at: 'm2' });
  const route = drawRoute(draw, 'part', stops);
  const cell = makeCell(
    draw,
    { hands, indexS: draw(0, 2) },
    [...ends, fixture, station('m2', 'machine')],
    [route],
  );
  return { cell, ways: [serialWay(route, parts)] };
}

/** A brush at which the robot holds the part, between machines. */
export function heldShop(seed: number, hands: 1 | 2, parts: number): ShopCase {
  const draw = drawFrom(seed);
  const machines = drawMachines(draw, 2);
  const stops = machines.slice(0, draw(1, 2)).map((m) => ({ at: m.name }));
  stops.splice(draw(0, stops.length), 0, { at: 'brush' });
  const route = drawRoute(draw, 'part', stops, 30);
  const stations = [...ends, ...machines, station('brush', 'held')];
  const cell = makeCell(draw, { hands, indexS: draw(0, 2) }, stations, [route]);
  return { cell, ways: [serialWay(route, parts)] };
}

/** One part in `every` goes by the gauge. */
export function gaugeShop(seed: number, hands: 1 | 2, every: number): ShopCase {
  const draw = drawFrom(seed);
  const stops: { at: string; more?: Partial<Step> }[] = [
    { at: 'm1' },
    { at: 'gauge', more: { everyParts: every } },
  ];
  if (draw(0, 1) === 1) stops.push({ at: 'm2' });
  const route = drawRoute(draw, 'part', stops);
  const stations = [...ends, ...drawMachines(draw, 2), station('gauge', 'bench')];
  const cell = makeCell(draw, { hands, indexS: draw(0, 2) }, stations, [route]);
  const skips = route.steps.map((s) => (s.everyParts > 1 ? null : s.stations[0]));
  return { cell, ways: [serialWay(route, 1), { route: 0, stations: skips, count: every - 1 }] };
}

/** Two parts in ratio 2 : 1 over shared machines, the second part in any order of machines. */
export function mixedShop(seed: number, hands: 1 | 2, counts: readonly [number, number]): ShopCase {
  const draw = drawFrom(seed);
  const a = drawRoute(draw, 'a', draw(0, 1) === 0 ? [{ at: 'm1' }] : [{ at: 'm1' }, { at: 'm2' }]);
  const b = drawRoute(draw, 'b', draw(0, 1) === 0 ? [{ at: 'm1' }] : [{ at: 'm2' }, { at: 'm1' }]);
  const cell = makeCell(draw, { hands, indexS: draw(0, 2) }, [...ends, ...drawMachines(draw, 2)], [a, b]);
  const parts = (['a', 'b'] as const).map((part, i) => ({
    part,
    contribution: null,
    perShift: null,
    ratio: counts[i],
    yieldPct: 100,
  }));
  return { cell: { ...cell, parts }, ways: [serialWay(a, counts[0], 0), serialWay(b, counts[1], 1)] };
}

/** Machines of their own, each with its part, visited unlike often. */
export function independentShop(seed: number, hands: 1 | 2, counts: readonly number[]): ShopCase {
  const draw = drawFrom(seed);
  const machines = drawMachines(draw, counts.length);
  const routes = machines.map((m, i) => {
    const cycleS = Math.round(draw(40, 90) / counts[i]);
    return drawRoute(draw, `p${i + 1}`, [{ at: m.name, more: { cycleS } }]);
  });
  const cell = makeCell(draw, { hands, indexS: draw(0, 2) }, [...ends, ...machines], routes);
  return { cell, ways: routes.map((route, i) => serialWay(route, counts[i], i)) };
}

/** Parts that compete for machines, each with what it brings: near the seconds that it takes. */
export function competingShop(seed: number, hands: 1 | 2, machines: number, parts: number): Cell {
  const draw = drawFrom(seed + 900);
  const names = Array.from({ length: machines }, (_, i) => `m${i + 1}`);
  const routes = Array.from({ length: parts }, (_, i) => {
    const some = names.filter(() => draw(0, 2) > 0);
    return drawRoute(draw, `p${i + 1}`, [{ at: some.length > 0 ? some : [names[i % machines]] }], 300);
  });
  const cell = makeCell(
    draw,
    { hands, indexS: hands === 2 ? 1 : 0 },
    [...ends, ...drawMachines(draw, machines)],
    routes,
  );
  const brings = ({ part, steps }: Route) => ({
    ...{ part, perShift: null, ratio: null, yieldPct: 100 },
    contribution: ((20 + steps.reduce((sum, { cycleS }) => sum + cycleS, 0)) * draw(70, 130)) / 100,
  });
  return { ...cell, parts: routes.map(brings) };
}

/** An infeed that needs time for its next part, an outfeed that needs time to clear. */
export function feederShop(seed: number, hands: 1 | 2, parts: number): ShopCase {
  const { cell, ways } = serialShop(seed, { machines: 1 + (seed % 2), hands, parts });
  const draw = drawFrom(seed + 5000);
  const routes = cell.routes.map((route) => ({
    ...route,
    steps: route.steps.map((s, i) =>
      i === 0 || i === route.steps.length - 1 ? { ...s, cycleS: draw(0, 1) * draw(10, 50) } : s,
    ),
  }));
  return { cell: { ...cell, routes }, ways };
}

/** Several features in one cell: a choice or a fixture, a held step or a gauge, longest waits, more room. */
export function everythingShop(seed: number): ShopCase {
  const draw = drawFrom(seed);
  const hands = draw(1, 2) as 1 | 2;
  const fixture = draw(0, 1) === 1;
  const capacityParts = fixture ? 2 : draw(1, 2);
  const wait = (): number | null => (draw(0, 2) === 0 ? draw(5, 40) : null);
  const stops: { at: string; more: Partial<Step> }[] = [
    { at: 'm1', more: { partsPerCycle: fixture ? 2 : 1, maxWaitS: wait() } },
  ];
  const second = draw(0, 2);
  if (second === 0) stops.splice(draw(0, 1), 0, { at: 'brush', more: {} });
  if (second === 1) stops.push({ at: 'gauge', more: { everyParts: 2, maxWaitS: wait() } });
  const route = drawRoute(draw, 'part', stops);
  const stations = [
    ...ends,
    station('m1', 'machine', { capacityParts, readyS: draw(0, 3) }),
    station('m2', 'machine'),
    station('brush', 'held'),
    station('gauge', 'bench'),
  ];
  const other = drawRoute(draw, 'other', [
    { at: draw(0, 1) === 0 ? 'm1' : 'm2', more: { maxWaitS: wait() } },
  ]);
  const cell = makeCell(draw, { hands, indexS: draw(0, 2) }, stations, [route, other]);
  const both = fixture || second === 1;
  const ways =
    second === 1
      ? [
          serialWay(route, 1),
          { route: 0, stations: route.steps.map((s) => (s.everyParts > 1 ? null : s.stations[0])), count: 1 },
        ]
      : [serialWay(route, both ? 2 : 1)];
  return { cell, ways: draw(0, 1) === 0 ? ways : [...ways, serialWay(other, 1, 1)] };
}

/** Parts that come to one station twice: twice in a row, past a brush in hand, or with another machine in between. */
export function againShop(seed: number, hands: 1 | 2, parts: number, waitPct = 0): ShopCase {
  const draw = drawFrom(seed);
  const capacityParts = draw(1, 3) === 1 ? 2 : 1;
  const again = station('m1', 'machine', { capacityParts, readyS: draw(0, 3), closeS: draw(0, 3) });
  const wait = (): { more: Partial<Step> } => ({
    more: { maxWaitS: draw(1, 100) <= waitPct ? draw(0, 30) : null },
  });
  const twice = [
    { at: 'm1', ...wait() },
    { at: 'm1', ...wait() },
  ];
  const other = { at: 'm2', ...wait() };
  const shapes = [
    twice,
    [...twice, other],
    [other, ...twice],
    [twice[0]!, other, twice[1]!],
    [twice[0]!, { at: 'brush' }, twice[1]!],
    [{ at: 'brush' }, twice[0]!, { at: 'brush' }],
  ];
  const route = drawRoute(draw, 'part', shapes[draw(0, parts > 1 ? 1 : shapes.length - 1)]!);
  const stations = [...ends, again, station('m2', 'machine'), station('brush', 'held')];
  const cell = makeCell(draw, { hands, indexS: hands === 2 ? draw(0, 3) : 0 }, stations, [route]);
  return { cell, ways: [serialWay(route, parts)] };
}

/** A gauge for one part in two, between two stays at one brush in hand. */
export function brushTwiceShop(seed: number, hands: 1 | 2): ShopCase {
  const draw = drawFrom(seed);
  const stops = [{ at: 'brush' }, { at: 'gauge', more: { everyParts: 2 } }, { at: 'brush' }];
  const route = drawRoute(draw, 'part', stops, 30);
  const stations = [...ends, station('brush', 'held'), station('gauge', 'bench')];
  const cell = makeCell(draw, { hands, indexS: draw(0, 2) }, stations, [route]);
  const skips = route.steps.map((s) => (s.everyParts > 1 ? null : s.stations[0]));
  return { cell, ways: [serialWay(route, 1), { route: 0, stations: skips, count: 1 }] };
}
