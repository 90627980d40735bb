/**
 * Lower bounds on the period of a plan that hold for every order: what each station needs by itself, and the work
 * that the robot cannot avoid.
 */
import { shortestWays } from '../../model/shortest-ways.js';
import type { Plan, PlanCarry, PlanEvent } from '../plan/plan.js';
import { roomS } from './room-time.js';

/** The greater of the robot's unavoidable work and each station's own time. */
export function periodBound(plan: Plan): number {
  // The work that no order spares the robot.
  const robotS = plan.carries.reduce((sum, carry) => sum + carry.count * carryLoadS(plan, carry), 0);
  return Math.max(robotS, ...plan.rooms.map((_, room) => stationBound(plan, room)));
}

/** Robot time that one run of a carry takes in any order of the plan: with one hand, the quickest way to its start too. */
export function carryLoadS(plan: Plan, carry: PlanCarry): number {
  if (plan.hands === 2) return carry.events.reduce((sum, e) => sum + plan.events[e]!.robotS, 0);
  const n = plan.stations.length;
  const first = carry.events[0]!;
  const start = plan.events[first]!.station;
  let way = Number.POSITIVE_INFINITY;
  for (const before of plan.carries) {
    const last = before.events[before.events.length - 1]!;
    const end = plan.events[last]!.station;
    way = Math.min(way, end === start ? waitInPlaceS(plan, last, first) : plan.emptyS[end * n + start]!);
  }
  return ownTime(plan, carry.events) + (Number.isFinite(way) ? way : 0);
}

/**
 * Least robot time between two events at one station that follow each other: a part that is placed where one part alone
 * has room and picked next is the same part, so the robot waits for its whole process; otherwise 0.
 */
export function waitInPlaceS(plan: Plan, before: number, after: number): number {
  const node = plan.events[before]!.to;
  const spec = plan.nodes[node]!;
  if (spec.kind !== 'inside' || plan.events[after]!.from !== node) return 0;
  return plan.rooms[spec.room]!.capacity === 1 && spec.batch === 1 ? spec.processS : 0;
}

/** Robot time inside a run of events that starts with empty hands: the actions and the ways between them. */
export function ownTime(plan: Plan, events: readonly number[]): number {
  const ways = insideWays(plan, events);
  return events.reduce((sum, e, i) => sum + plan.events[e]!.robotS + (ways[i] ?? 0), 0);
}

/** Robot time between the events of a run that starts with empty hands, one fewer than events. */
export function insideWays(plan: Plan, events: readonly number[]): number[] {
  let inHand = 0;
  return events.slice(0, -1).map((e, i) => {
    const event = plan.events[e]!;
    if (event.action === 'pick') inHand++;
    if (event.action === 'place') inHand--;
    const to = plan.events[events[i + 1]!]!.station;
    if (event.station === to) return plan.hands === 2 ? plan.indexS : 0;
    const pair = event.station * plan.stations.length + to;
    return inHand > 0 ? plan.loadedS[pair]! : plan.emptyS[pair]!;
  });
}

/** Least period by one station alone: parts take up its room from place to pick, with the quickest exchange. */
export function stationBound(plan: Plan, room: number): number {
  let sum = 0;
  for (const [index, node] of plan.nodes.entries())
    if (node.room === room) sum += node.visits * nodeLoadS(plan, index);
  return sum;
}

/** Share of its station's time that one part at a node takes in any order of the plan; 0 where there is room for all. */
export function nodeLoadS(plan: Plan, index: number): number {
  const node = plan.nodes[index]!;
  const spec = plan.rooms[node.room];
  if (spec === undefined || spec.hands || !Number.isFinite(spec.capacity)) return 0;
  const { capacity } = spec;
  const wholeBatches = plan.nodes.every((other) => other.room !== node.room || other.batch === capacity);
  const handlingS = handlingAt(plan, index);
  const use = { processS: node.processS, handlingS, batch: node.batch, capacity, wholeBatches };
  return (roomS(use) + (capacity === 1 ? exchangeS(plan, index) : 0)) / capacity;
}

/** Least robot time to place and pick one part at a node. */
function handlingAt(plan: Plan, node: number): number {
  let place = Number.POSITIVE_INFINITY;
  let pick = Number.POSITIVE_INFINITY;
  for (const event of plan.events) {
    if (event.to === node) place = Math.min(place, event.robotS);
    if (event.from === node) pick = Math.min(pick, event.robotS);
  }
  return place + pick;
}

/** Least robot time from the end of a pick at this node to the start of the next place in its room. */
function exchangeS(plan: Plan, node: number): number {
  const n = plan.stations.length;
  const { room } = plan.nodes[node]!;
  const quickest = quickestWays(plan);
  const bringing = plan.carries.filter((carry) => plan.nodes[lastOf(plan, carry).to]!.room === room);
  let least = Number.POSITIVE_INFINITY;
  for (const out of plan.carries) {
    const pick = plan.events[out.events[0]!]!;
    if (pick.from !== node) continue;
    // With two hands other events may come between; then a turn of the gripper or the trip away and back is all that is sure.
    if (plan.hands === 2) return Math.min(plan.indexS, tripAway(quickest, n, pick.station));
    const outS = ownTime(plan, out.events) - pick.robotS;
    const placed = lastOf(plan, out);
    if (bringing.includes(out)) {
      // The same part goes straight back in for its next step.
      least = Math.min(least, outS - placed.robotS);
      continue;
    }
    for (const back of bringing) {
      // The next part is not one that was in the station, which is empty now.
      if (plan.nodes[plan.events[back.events[0]!]!.from]!.room === room) continue;
      const from = plan.events[back.events[0]!]!.station;
      const wayS = placed.station === from ? 0 : quickest[placed.station * n + from]!;
      least = Math.min(least, outS + wayS + ownTime(plan, back.events) - lastOf(plan, back).robotS);
    }
  }
  return Number.isFinite(least) ? least : 0;
}

function lastOf(plan: Plan, carry: PlanCarry): PlanEvent {
  return plan.events[carry.events[carry.events.length - 1]!]!;
}

const quickestOf = new WeakMap<Plan['emptyS'], Float64Array>();

/** Least robot time from station to station whatever is in hand and over whatever stations between; kept by travel times. */
export function quickestWays(plan: Plan): Float64Array {
  const known = quickestOf.get(plan.emptyS);
  if (known !== undefined) return known;
  const either = plan.emptyS.map((empty, i) => Math.min(empty, plan.loadedS[i]!));
  const quickest = shortestWays(either, plan.stations.length);
  quickestOf.set(plan.emptyS, quickest);
  return quickest;
}

/** Least robot time away from a station and back, over quickest ways between n stations. */
export function tripAway(quickest: Float64Array, n: number, station: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let other = 0; other < n; other++) {
    if (other !== station)
      least = Math.min(least, quickest[station * n + other]! + quickest[other * n + station]!);
  }
  return least;
}
