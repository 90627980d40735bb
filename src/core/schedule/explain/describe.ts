/** Words for what a schedule consists of: stations' shares, the robot's shares, the critical circuit as a sentence. */
import { listText } from '../../model/list-text.js';
import { nameText } from '../../model/name-text.js';
import { stationBound } from '../bound/period-bound.js';
import { type PartWait, partWaits, robotWorkS } from '../evaluate/busy-waits.js';
import type { EvaluatedOrder, OrderArc } from '../evaluate/evaluate-order.js';
import type { Plan } from '../plan/plan.js';
import type {
  Bottleneck,
  ChainLink,
  OrderEvent,
  RobotShare,
  ScheduleEvent,
  ScheduleHold,
  StationShare,
} from '../result.js';

/** A station whose own bound is this close to the period is at its limit. */
const LIMIT_TOLERANCE_S = 1e-6;

/** Seconds as people write them: up to one decimal, no trailing zero. @example plainSecondsText(2217.8) // '2,217.8 s' */
export function plainSecondsText(seconds: number): string {
  return `${Number(seconds.toFixed(1)).toLocaleString('en', { maximumFractionDigits: 1 })} s`;
}

/** Parts per hour, by part and `total`, of a period with so many parts. */
export function ratesOf(
  partsPerPeriod: Readonly<Record<string, number>>,
  periodS: number,
): Record<string, number> {
  const perPart = Object.entries(partsPerPeriod).map(([part, n]) => [part, (3600 * n) / periodS] as const);
  return { ...Object.fromEntries(perPart), total: perPart.reduce((sum, [, rate]) => sum + rate, 0) };
}

/** Events with their hands. With two hands a pick takes the free one; a place uses the hand that picked. */
export function orderEvents(plan: Plan, found: EvaluatedOrder): OrderEvent[] {
  const { order } = found;
  const carriers = carrierLinks(plan, found);
  const hands = assignHands(plan, found, carriers);
  return order.map((kind, position) => {
    const event = plan.events[kind]!;
    const arc = found.arcs[position]!;
    const carrier = carriers[position]!;
    return {
      action: event.action,
      station: plan.stations[event.station]!.name,
      part: event.part,
      step: event.step,
      hand: hands[position]!,
      robotS: event.robotS,
      toNextS: arc.travelS,
      loadedToNext: found.inHand[position]! > 0,
      pickIndex: carrier.pick,
      pickLag: carrier.lag,
      waitsFor:
        event.action !== 'pick'
          ? []
          : found.links
              .filter((link) => link.pick === position && plan.nodes[link.node]!.kind === 'inside')
              .map((link) => ({
                placeIndex: link.place,
                lag: link.lag,
                processS: plan.nodes[link.node]!.processS,
                maxWaitS: link.lastOfBatch ? plan.nodes[link.node]!.maxWaitS : null,
              })),
    };
  });
}

interface Carrier {
  readonly pick: number;
  readonly lag: number;
}

/** For each event the pick that took its part, followed back through the stages in hand. */
function carrierLinks(plan: Plan, found: EvaluatedOrder): Carrier[] {
  const before = new Map<number, Carrier>();
  for (const link of found.links) {
    if (plan.nodes[link.node]!.kind === 'hand') before.set(link.pick, { pick: link.place, lag: link.lag });
  }
  return found.order.map((_, position) => {
    let at: Carrier = { pick: position, lag: 0 };
    for (let step = before.get(at.pick); step !== undefined; step = before.get(at.pick))
      at = { pick: step.pick, lag: at.lag + step.lag };
    return at;
  });
}

function assignHands(plan: Plan, found: EvaluatedOrder, carriers: readonly Carrier[]): (1 | 2)[] {
  if (plan.hands === 1) return found.order.map(() => 1);
  // Two rounds, so that parts carried over the period end come in the hand that picked them in the round before.
  return nextHands(
    plan,
    found,
    carriers,
    nextHands(
      plan,
      found,
      carriers,
      found.order.map(() => 1),
    ),
  );
}

/** Hands of one round, given those of the round before. */
function nextHands(
  plan: Plan,
  found: EvaluatedOrder,
  carriers: readonly Carrier[],
  before: readonly (1 | 2)[],
): (1 | 2)[] {
  const hands = [...before];
  const held = new Set<1 | 2>();
  for (const [position, carrier] of carriers.entries())
    if (carrier.lag > 0 && plan.events[found.order[position]!]!.action === 'place')
      held.add(before[carrier.pick]!);
  for (const [position, kind] of found.order.entries()) {
    const { action } = plan.events[kind]!;
    const carrier = carriers[position]!;
    if (action === 'pick') {
      hands[position] = held.has(1) ? 2 : 1;
      held.add(hands[position]!);
    } else {
      hands[position] = (carrier.lag > 0 ? before : hands)[carrier.pick]!;
      if (action === 'place') held.delete(hands[position]!);
    }
  }
  return hands;
}

/** The timed picks and places, and the stretches at held stations, in order of their start. */
export function timedEvents(
  found: EvaluatedOrder,
  order: readonly OrderEvent[],
): { events: ScheduleEvent[]; holds: ScheduleHold[] } {
  const events: ScheduleEvent[] = [];
  const holds: ScheduleHold[] = [];
  for (const [position, event] of order.entries()) {
    const startS = found.startS[position]!;
    const common = {
      startS,
      endS: startS + event.robotS,
      station: event.station,
      part: event.part,
      step: event.step,
      hand: event.hand,
    };
    if (event.action === 'hold') holds.push(common);
    else events.push({ ...common, action: event.action });
  }
  return { events, holds };
}

export function robotShare(plan: Plan, found: EvaluatedOrder): RobotShare {
  let handlingS = 0;
  let heldS = 0;
  let travelEmptyS = 0;
  let travelLoadedS = 0;
  for (const [position, kind] of found.order.entries()) {
    const event = plan.events[kind]!;
    const next = plan.events[found.order[(position + 1) % found.order.length]!]!;
    const wayS = found.arcs[position]!.travelS;
    handlingS += event.robotS - event.heldS;
    heldS += event.heldS;
    if (event.station === next.station) handlingS += wayS;
    else if (found.inHand[position]! > 0) travelLoadedS += wayS;
    else travelEmptyS += wayS;
  }
  const busyS = handlingS + heldS + travelEmptyS + travelLoadedS;
  return {
    handlingS,
    travelEmptyS,
    travelLoadedS,
    heldS,
    waitS: Math.max(0, found.periodS - busyS),
    utilizationPct: (100 * busyS) / found.periodS,
  };
}

/** How each station spends a period. Room-seconds: with a capacity above 1 they add up to capacity x period. */
export function stationShares(plan: Plan, found: EvaluatedOrder): StationShare[] {
  const waits = partWaits(plan, found);
  const workS = robotWorkS(plan, found);
  return plan.rooms.flatMap((room, index) => {
    if (room.hands) return [];
    const station = plan.stations.find((s) => s.name === room.name)!;
    let processingS = 0;
    let handlingS = 0;
    const own = waits.filter((wait) => plan.nodes[wait.node]!.room === index);
    const sum = (of: (wait: PartWait) => number): number => own.reduce((total, wait) => total + of(wait), 0);
    const waitRobotS = sum(({ finishS, startS }) => startS - finishS);
    for (const [node, spec] of plan.nodes.entries()) {
      if (spec.room !== index) continue;
      processingS += spec.visits * spec.cycleS;
      handlingS += spec.visits * (spec.processS - spec.cycleS);
      for (const kind of found.order) {
        const event = plan.events[kind]!;
        if (event.to === node || event.from === node) handlingS += event.robotS;
      }
    }
    const capacity = Number.isFinite(room.capacity) ? room.capacity : 1;
    const allS = capacity * found.periodS;
    return [
      {
        station: room.name,
        kind: station.kind,
        processingS,
        handlingS,
        waitRobotS,
        waitBusyS: sum(({ roomS, startS }) => workS(roomS, startS)),
        emptyS: Math.max(0, allS - processingS - handlingS - waitRobotS),
        utilizationPct: (100 * processingS) / allS,
      },
    ];
  });
}

/** The critical circuit in words: who waits for whom, and what each link takes. */
export function bottleneckOf(plan: Plan, found: EvaluatedOrder): Bottleneck {
  const arcs = found.criticalCircuit.map((a) => found.arcs[a]!);
  const links = arcs.flatMap((arc) => chainLinks(plan, found, arc)).filter((link) => Math.abs(link.S) > 1e-9);
  const periods = arcs.reduce((sum, arc) => sum + arc.periods, 0);
  const timed = arcs.filter((arc) => arc.kind === 'process' || arc.kind === 'feeder');
  const stations = [...new Set(timed.map((arc) => plan.nodes[arc.node]!.station))];
  const also = atTheirLimit(plan, found.periodS).filter((name) => !stations.includes(name));
  const waits = arcs.filter((arc) => arc.kind === 'longest wait').map((arc) => plan.nodes[arc.node]!.station);
  const words = [
    paceText(plainSecondsText(found.periodS), periods, stations, arcs.length === found.order.length),
    also.length === 0 ? '' : `${list(also)} ${also.length === 1 ? 'is' : 'are'} at the limit as well.`,
    waits.length === 0
      ? ''
      : `The maximum wait at ${list([...new Set(waits)])} makes the robot cycle longer.`,
  ];
  return {
    text: words.filter((text) => text !== '').join(' '),
    stations: [...stations, ...also],
    periods,
    chain: links,
  };
}

/** Stations that by themselves allow no shorter round: twins of the one on the chain are as much the bottleneck. */
function atTheirLimit(plan: Plan, periodS: number): string[] {
  return plan.rooms.flatMap((room, index) =>
    stationBound(plan, index) >= periodS - LIMIT_TOLERANCE_S ? [room.name] : [],
  );
}

function paceText(period: string, periods: number, stations: readonly string[], wholeRound: boolean): string {
  const pace = `one robot cycle of ${period}`;
  if (stations.length === 0 && wholeRound)
    return `Bottleneck: the robot. It is never idle; its handling and travel make ${pace}.`;
  if (stations.length === 0) return `Bottleneck: the robot's moves, ${pace}.`;
  const over = periods > 1 ? ` (critical path over ${periods} robot cycles)` : '';
  if (stations.length === 1)
    return `Bottleneck: ${nameText(stations[0]!)}${over}. Its cycle plus unload and load make ${pace}.`;
  return `Bottleneck: ${list(stations)} together${over}. Their cycles and the robot's moves between them make ${pace}.`;
}

function list(names: readonly string[]): string {
  return listText(names.map(nameText));
}

/** Links of a chain in plain words; a robot arc gives the action and the way to the next. */
export function chainLinks(
  plan: Plan,
  found: { readonly order: readonly number[] },
  arc: OrderArc,
): ChainLink[] {
  const event = plan.events[found.order[arc.from]!]!;
  const station = plan.stations[event.station]!.name;
  if (arc.kind === 'robot') {
    const next = plan.events[found.order[arc.to]!]!;
    const to = plan.stations[next.station]!.name;
    const way = to === station ? `turn the gripper at ${station}` : `travel ${station} to ${to}`;
    return [
      { what: actionText(event.action, event.part, station), S: event.robotS },
      { what: way, S: arc.travelS },
    ];
  }
  const node = plan.nodes[arc.node]!;
  if (arc.kind === 'process') {
    return [
      { what: actionText('place', node.part, node.station), S: arc.weightS - node.processS },
      { what: `${node.station} works on ${node.part}`, S: node.processS },
    ];
  }
  if (arc.kind === 'feeder')
    return [{ what: `${node.station} gets ready for the next part`, S: arc.weightS }];
  return [{ what: `longest stay of ${node.part} at ${node.station}`, S: arc.weightS }];
}

function actionText(action: string, part: string, station: string): string {
  if (action === 'pick') return `pick ${part} at ${station}`;
  if (action === 'place') return `place ${part} at ${station}`;
  return `hold ${part} at ${station}`;
}
