/**
 * What the robot can do next. An act is told by its event: a pick (with one hand the whole carry up to the place goes
 * with it, since nothing else can come in between), or with two hands also the next event of a part in hand.
 */
import type { PlaySpace } from './play-space.js';
import {
  beginS,
  handWith,
  hasPart,
  hasRoom,
  keepsBatch,
  mayCarry,
  type PlayState,
  playEvent,
} from './play-state.js';

/** Writes the acts that are possible, not barred and lead no hand into a corner into a list; returns how many. */
export function listActs(
  space: PlaySpace,
  state: PlayState,
  acts: Int32Array,
  barred: ReadonlySet<number> = NONE_BARRED,
): number {
  const { plan, carries } = space;
  let count = 0;
  for (let hand = 0; hand < state.inHand; hand++) {
    const event = carries[state.handCarry[hand]!]!.events[state.handStage[hand]!]!;
    const { action, to } = plan.events[event]!;
    if (barred.has(event)) continue;
    if (action === 'place' && !(hasRoom(space, state, to, -1) && keepsBatch(space, state, to))) continue;
    if (handWith(space, state, event) === hand) acts[count++] = event;
  }
  if (state.inHand === plan.hands) return count;
  for (let c = 0; c < carries.length; c++) {
    const { from, events } = carries[c]!;
    if (barred.has(events[0]!)) continue;
    if (plan.nodes[from]!.kind !== 'source' && !hasPart(state, from)) continue;
    if (mayCarry(space, state, c) && goesOn(space, state, c)) acts[count++] = events[0]!;
  }
  return count;
}

const NONE_BARRED: ReadonlySet<number> = new Set();

/** After the pick some part in hand can be placed, at once or in exchange for another. */
function goesOn(space: PlaySpace, state: PlayState, carry: number): boolean {
  const { from, to } = space.carries[carry]!;
  if (hasRoom(space, state, to, from) && keepsBatch(space, state, to)) return true;
  if (space.plan.hands === 1) return false;
  if (state.inHand === 0) return exchangeable(space, state, to);
  const other = space.carries[state.handCarry[0]!]!.to;
  return hasRoom(space, state, other, from) && keepsBatch(space, state, other);
}

/** A complete part lies in the room of the node that can be taken out as this one comes. */
export function exchangeable(space: PlaySpace, state: PlayState, node: number): boolean {
  return exchangeNode(space, state, node) >= 0;
}

/** Of the complete parts in the room of a node the one that is finished first: its node; -1 = none. */
export function exchangeNode(space: PlaySpace, state: PlayState, node: number): number {
  let first = -1;
  if (!keepsBatch(space, state, node)) return first;
  for (const other of space.nodesOf[space.plan.nodes[node]!.room]!) {
    if (!hasPart(state, other)) continue;
    if (first < 0 || state.finishS[other * space.depth]! < state.finishS[first * space.depth]!) first = other;
  }
  return first;
}

/** Plays an act, and tells each event of it. */
export function playAct(
  space: PlaySpace,
  state: PlayState,
  act: number,
  tell: ((event: number) => void) | null = null,
): void {
  const spec = space.plan.events[act]!;
  if (space.plan.hands === 2 || spec.action !== 'pick') {
    playEvent(space, state, act);
    tell?.(act);
    return;
  }
  for (const event of space.carries[space.carryOf[act]!]!.events) {
    playEvent(space, state, event);
    tell?.(event);
  }
}

/**
 * When an act is of use: a pick from a station when it can begin; a raw part for a full station when the part there
 * can be exchanged for it; all else when it begins.
 */
export function useS(space: PlaySpace, state: PlayState, act: number): number {
  const { plan } = space;
  const startS = beginS(space, state, act);
  const spec = plan.events[act]!;
  if (plan.hands === 1 || spec.action !== 'pick') return startS;
  const { from, to, events } = space.carries[space.carryOf[act]!]!;
  if (hasRoom(space, state, to, from)) return startS;
  const last = plan.events[events[events.length - 1]!]!;
  const thereS = startS + spec.robotS + plan.loadedS[spec.station * plan.stations.length + last.station]!;
  const leaves = exchangeNode(space, state, to);
  return leaves < 0 ? startS : Math.max(thereS, state.finishS[leaves * space.depth]!);
}
