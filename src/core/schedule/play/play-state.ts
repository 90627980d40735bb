/**
 * A moment of the running cell without chance, and what each move makes of it. Every event begins as early as it can:
 * the robot goes there at once and waits for the part or the feeder. Parts of one place leave first in, first out.
 */
import type { PlaySpace } from './play-space.js';

const NONE = -1;

/** Mutable; copied with `copyOf` before something else is tried. Times are seconds on one clock. */
export interface PlayState {
  /** When the robot is free. */
  timeS: number;
  /** Station where it is then. */
  at: number;
  /** Carry and next event of it, for each part in hand, the longer held first. */
  readonly handCarry: Int32Array;
  readonly handStage: Int32Array;
  inHand: number;
  /** Parts at each node, an unfinished batch included. */
  readonly inside: Int32Array;
  /** Of those, parts of a batch that is not complete. */
  readonly pending: Int32Array;
  /** When each complete part is finished, the first in first: finishS[node * depth + k]. */
  readonly finishS: Float64Array;
  readonly inRoom: Int32Array;
  /** When an infeed has the next part ready, and an outfeed can take one, by station. */
  readonly rackS: Float64Array;
  /** By occasional step: parts that have come to it, modulo its number. */
  readonly occasion: Int32Array;
  /** By route: parts started. */
  readonly started: Int32Array;
  /** Value of the parts delivered. */
  valueMade: number;
  /** Value of all work begun (see `gainedAt`). */
  gained: number;
  /** When the place of each room last called: its part was finished, or it was emptied. */
  readonly calledS: Float64Array;
}

/** The empty cell, the robot at the first infeed. */
export function emptyState(space: PlaySpace): PlayState {
  const { plan } = space;
  const source = plan.nodes.find((node) => node.kind === 'source')!;
  return {
    timeS: 0,
    at: plan.stations.findIndex((s) => s.name === source.station),
    handCarry: new Int32Array(plan.hands).fill(NONE),
    handStage: new Int32Array(plan.hands),
    inHand: 0,
    inside: new Int32Array(plan.nodes.length),
    pending: new Int32Array(plan.nodes.length),
    finishS: new Float64Array(plan.nodes.length * space.depth),
    inRoom: new Int32Array(plan.rooms.length),
    rackS: new Float64Array(plan.stations.length),
    occasion: new Int32Array(space.occasionEvery.length),
    started: new Int32Array(space.cell.routes.length),
    valueMade: 0,
    gained: 0,
    calledS: new Float64Array(plan.rooms.length),
  };
}

export function copyState(from: PlayState, to: PlayState): void {
  to.timeS = from.timeS;
  to.at = from.at;
  to.handCarry.set(from.handCarry);
  to.handStage.set(from.handStage);
  to.inHand = from.inHand;
  to.inside.set(from.inside);
  to.pending.set(from.pending);
  to.finishS.set(from.finishS);
  to.inRoom.set(from.inRoom);
  to.rackS.set(from.rackS);
  to.occasion.set(from.occasion);
  to.started.set(from.started);
  to.valueMade = from.valueMade;
  to.gained = from.gained;
  to.calledS.set(from.calledS);
}

/** A complete part lies at the node, finished or not. */
export function hasPart(state: PlayState, node: number): boolean {
  return state.inside[node]! > state.pending[node]!;
}

/**
 * Whether the room of a node can take a part that comes from another node (which leaves its place first).
 *
 * @param from node that the part leaves; -1 = it is in hand
 */
export function hasRoom(space: PlaySpace, state: PlayState, node: number, from: number): boolean {
  const { room, kind } = space.plan.nodes[node]!;
  if (kind === 'sink') return true;
  const leaves = from >= 0 && space.plan.nodes[from]!.room === room ? 1 : 0;
  return state.inRoom[room]! - leaves < space.capacity[room]!;
}

/** An unfinished batch of another part or step keeps a room for itself, so that two batches never block each other. */
export function keepsBatch(space: PlaySpace, state: PlayState, node: number): boolean {
  const { room, kind } = space.plan.nodes[node]!;
  if (kind === 'sink') return true;
  for (const other of space.nodesOf[room]!) if (other !== node && state.pending[other]! > 0) return false;
  return true;
}

/** The occasional steps come up as one part in n, and an asked mix is kept set by set. */
export function mayCarry(space: PlaySpace, state: PlayState, carry: number): boolean {
  const { occasions, from, route } = space.carries[carry]!;
  for (const { occasion, makes } of occasions) {
    const due = state.occasion[occasion]! === space.occasionEvery[occasion]! - 1;
    if (makes !== due) return false;
  }
  if (space.mix.length < 2 || space.plan.nodes[from]!.kind !== 'source') return true;
  if (space.mix[route] === 0) return false;
  return state.started[route]! < space.mix[route]! * (setsStarted(space, state) + 1) + space.lead[route]!;
}

/** Whole sets of the mix of which every part has been started. */
export function setsStarted(space: PlaySpace, state: PlayState): number {
  let sets = Number.POSITIVE_INFINITY;
  for (let r = 0; r < space.mix.length; r++)
    if (space.mix[r]! > 0) sets = Math.min(sets, Math.floor(state.started[r]! / space.mix[r]!));
  return sets;
}

/** When an event can begin: the robot is there, and the part, the feeder or the outfeed is ready. */
export function beginS(space: PlaySpace, state: PlayState, event: number): number {
  const { plan } = space;
  const spec = plan.events[event]!;
  const thereS = state.timeS + wayTo(space, state, event);
  if (spec.action === 'pick') {
    const kind = plan.nodes[spec.from]!.kind;
    return Math.max(
      thereS,
      kind === 'source' ? state.rackS[spec.station]! : state.finishS[spec.from * space.depth]!,
    );
  }
  return plan.nodes[spec.to]!.kind === 'sink' ? Math.max(thereS, state.rackS[spec.station]!) : thereS;
}

function wayTo(space: PlaySpace, state: PlayState, event: number): number {
  const { plan } = space;
  const { station } = plan.events[event]!;
  if (state.at === station) return plan.hands === 2 ? plan.indexS : 0;
  const pair = state.at * plan.stations.length + station;
  return state.inHand > 0 ? plan.loadedS[pair]! : plan.emptyS[pair]!;
}

/** Plays one event, which must be possible. @returns when it begins */
export function playEvent(space: PlaySpace, state: PlayState, event: number): number {
  const spec = space.plan.events[event]!;
  const startS = beginS(space, state, event);
  const endS = startS + spec.robotS;
  state.timeS = endS;
  state.at = spec.station;
  if (spec.action === 'pick') pick(space, state, event, endS);
  else {
    const hand = handWith(space, state, event);
    state.handStage[hand]!++;
    if (spec.action === 'place') {
      letGo(state, hand);
      place(space, state, event, endS);
    }
  }
  return startS;
}

function pick(space: PlaySpace, state: PlayState, event: number, endS: number): void {
  const { plan, depth } = space;
  const { from, station } = plan.events[event]!;
  const carry = space.carryOf[event]!;
  const node = plan.nodes[from]!;
  if (node.kind === 'source') {
    state.rackS[station] = endS + node.processS;
    state.started[space.carries[carry]!.route]!++;
  } else {
    state.calledS[node.room] = state.finishS[from * depth]!;
    state.inside[from]!--;
    state.inRoom[node.room]!--;
    const first = from * depth;
    state.finishS.copyWithin(first, first + 1, first + depth);
  }
  state.handCarry[state.inHand] = carry;
  state.handStage[state.inHand] = 1;
  state.inHand++;
  for (const { occasion } of space.carries[carry]!.occasions)
    state.occasion[occasion] = (state.occasion[occasion]! + 1) % space.occasionEvery[occasion]!;
}

/** The hand whose part has this event next. */
export function handWith(space: PlaySpace, state: PlayState, event: number): number {
  const carry = space.carryOf[event]!;
  const { stage } = space.plan.events[event]!;
  for (let hand = 0; hand < state.inHand; hand++)
    if (state.handCarry[hand] === carry && state.handStage[hand] === stage) return hand;
  return NONE;
}

function letGo(state: PlayState, hand: number): void {
  state.inHand--;
  if (hand < state.inHand) {
    state.handCarry[hand] = state.handCarry[state.inHand]!;
    state.handStage[hand] = state.handStage[state.inHand]!;
  }
  state.handCarry[state.inHand] = NONE;
  state.handStage[state.inHand] = 0;
}

function place(space: PlaySpace, state: PlayState, event: number, endS: number): void {
  const { to, station } = space.plan.events[event]!;
  const node = space.plan.nodes[to]!;
  if (node.kind === 'sink') {
    state.rackS[station] = endS + node.processS;
    state.valueMade += space.value[space.carries[space.carryOf[event]!]!.route]!;
    state.gained += space.gain[to]!;
    return;
  }
  state.inRoom[node.room]!++;
  state.inside[to]!++;
  state.pending[to]!++;
  if (state.pending[to]! < node.batch) return;
  const complete = to * space.depth + state.inside[to]! - node.batch;
  for (let k = 0; k < node.batch; k++) state.finishS[complete + k] = endS + node.processS;
  state.gained += node.batch * space.gain[to]!;
  state.pending[to] = 0;
}

/** What the cell has gained by the goal up to a moment, work under way in its share. */
export function gainedAt(space: PlaySpace, state: PlayState, atS: number): number {
  const { plan, depth, gain } = space;
  let gained = state.gained;
  for (const [i, node] of plan.nodes.entries()) {
    if (node.kind !== 'inside' || node.processS === 0) continue;
    const complete = state.inside[i]! - state.pending[i]!;
    for (let k = 0; k < complete; k++) {
      const leftS = state.finishS[i * depth + k]! - atS;
      if (leftS > 0) gained -= gain[i]! * Math.min(1, leftS / node.processS);
    }
  }
  return gained;
}

/** Everything but the times: two moments alike in it can be the ends of a repeating sequence. */
export function shapeOf(space: PlaySpace, state: PlayState): string {
  const hands: string[] = [];
  for (let h = 0; h < state.inHand; h++) hands.push(`${state.handCarry[h]}.${state.handStage[h]}`);
  if (hands.length === 2 && hands[0]! > hands[1]!) hands.reverse();
  const sets = space.mix.length < 2 ? 0 : setsStarted(space, state);
  const ahead = space.mix.map((n, r) => (space.mix.length < 2 ? 0 : state.started[r]! - n * sets));
  return [state.at, hands, state.inside, state.pending, state.occasion, ahead].join(';');
}
