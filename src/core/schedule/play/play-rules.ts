/**
 * Robots that answer calls, as a shop programs them: a finished part calls to be taken away, an empty station to be
 * filled. Of the calls that can be served the first, the nearest or the one of the longest cycle is served; a station
 * that was emptied keeps its place among the calls, or is filled again at once (`refills`). With two hands the robot
 * brings the next part along and exchanges it for the finished one.
 */
import type { CallRule } from '../../model/call-rules.js';
import { exchangeNode, listActs } from './acts.js';
import type { Chooser } from './play-run.js';
import type { PlaySpace } from './play-space.js';
import { beginS, hasPart, hasRoom, mayCarry, type PlayState } from './play-state.js';

/** @param refills after taking a part away, the same station is filled next where it can be */
export function ruleChooser(space: PlaySpace, rule: CallRule, refills: boolean): Chooser {
  const acts = new Int32Array(space.carries.length + 2);
  let emptied = -1;
  return (state, barred) => {
    const count = listActs(space, state, acts, barred);
    const wanted = refills && emptied >= 0 ? fillOf(space, acts, count, emptied) : -1;
    const act = wanted >= 0 ? wanted : chosen(space, state, rule, acts, count);
    emptied = -1;
    if (act >= 0 && space.plan.events[act]!.action === 'pick') {
      const { from, to } = space.carries[space.carryOf[act]!]!;
      if (space.plan.nodes[from]!.kind === 'inside' && space.plan.nodes[to]!.kind === 'sink')
        emptied = space.plan.nodes[from]!.room;
    }
    return act;
  };
}

function fillOf(space: PlaySpace, acts: Int32Array, count: number, room: number): number {
  for (let i = 0; i < count; i++) {
    const spec = space.plan.events[acts[i]!]!;
    if (spec.action !== 'pick') continue;
    const { from, to } = space.carries[space.carryOf[acts[i]!]!]!;
    if (space.plan.nodes[to]!.room === room && space.plan.nodes[from]!.kind === 'source') return acts[i]!;
  }
  return -1;
}

function chosen(space: PlaySpace, state: PlayState, rule: CallRule, acts: Int32Array, count: number): number {
  // A part in hand is placed as soon as there is room; else it is exchanged where it goes.
  if (state.inHand > 0) {
    const act = withPart(space, state, acts, count);
    if (act >= 0) return act;
  }
  // Where nothing calls yet the robot waits for the next call.
  const freeS = Math.max(state.timeS, firstCallS(space, state, acts, count));
  let best = -1;
  let bestKey = Number.POSITIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const act = acts[i]!;
    if (space.plan.events[act]!.action !== 'pick') continue;
    const call = callOf(space, state, act);
    if (call.calledS > freeS + 1e-9) continue;
    const key = keyOf(space, state, rule, act, call);
    if (key >= bestKey - 1e-9) continue;
    bestKey = key;
    best = act;
  }
  return best;
}

interface Call {
  readonly calledS: number;
  readonly cycleS: number;
}

/** The call that a pick serves: of the part that is picked, or of the station that it is brought to. */
function callOf(space: PlaySpace, state: PlayState, act: number): Call {
  const { from, to } = space.carries[space.carryOf[act]!]!;
  const source = space.plan.nodes[from]!;
  const target = space.plan.nodes[to]!;
  if (source.kind === 'inside') return { calledS: state.finishS[from * space.depth]!, cycleS: source.cycleS };
  if (target.kind === 'sink') return { calledS: state.timeS, cycleS: 0 };
  if (hasRoom(space, state, to, from)) return { calledS: state.calledS[target.room]!, cycleS: target.cycleS };
  const leaves = exchangeNode(space, state, to);
  return {
    calledS: leaves < 0 ? Number.POSITIVE_INFINITY : state.finishS[leaves * space.depth]!,
    cycleS: leaves < 0 ? 0 : space.plan.nodes[leaves]!.cycleS,
  };
}

function firstCallS(space: PlaySpace, state: PlayState, acts: Int32Array, count: number): number {
  let first = Number.POSITIVE_INFINITY;
  for (let i = 0; i < count; i++)
    if (space.plan.events[acts[i]!]!.action === 'pick')
      first = Math.min(first, callOf(space, state, acts[i]!).calledS);
  return first;
}

/** The smaller the sooner served; with two hands bringing the next part along goes before taking away alone. */
function keyOf(space: PlaySpace, state: PlayState, rule: CallRule, act: number, call: Call): number {
  const { plan } = space;
  const { from } = space.carries[space.carryOf[act]!]!;
  const alone = plan.hands === 2 && state.inHand === 0 && plan.nodes[from]!.kind === 'inside' ? 1e-6 : 0;
  if (rule === 'first') return call.calledS + alone;
  if (rule === 'longest') return -call.cycleS + alone;
  return beginS(space, state, act) - state.timeS + alone;
}

/** Where a part in hand goes on: its next event, or the part that has to make room for it. */
function withPart(space: PlaySpace, state: PlayState, acts: Int32Array, count: number): number {
  for (let i = 0; i < count; i++) if (space.plan.events[acts[i]!]!.action !== 'pick') return acts[i]!;
  const { to } = space.carries[state.handCarry[0]!]!;
  let best = -1;
  let bestS = state.timeS + 1e-9;
  for (let i = 0; i < count; i++) {
    const { from } = space.carries[space.carryOf[acts[i]!]!]!;
    if (space.plan.nodes[from]!.room !== space.plan.nodes[to]!.room || !hasPart(state, from)) continue;
    const readyS = state.finishS[from * space.depth]!;
    if (readyS > bestS || !mayCarry(space, state, space.carryOf[acts[i]!]!)) continue;
    bestS = readyS;
    best = acts[i]!;
  }
  return best;
}
