/**
 * Parts by place and room since the period began, and visits done by place, of an order that is built event by event and
 * taken back: each change goes onto a stack with the count that it changes.
 */
import type { Plan } from '../../plan/plan.js';

// What an entry of the stack puts back: counts of nodes or of rooms.
const NODE_COUNT = 0;
const NODE_NEED = 1;
const ROOM_COUNT = 2;
const ROOM_NEED = 3;
const ROOM_TOP = 4;
const PICKS_DONE = 5;
const PLACES_DONE = 6;

/** Entries of the stack that one event can take at most, three numbers each. */
const UNDO_PER_EVENT = 3 * 12;

export class PartCounts {
  /** Parts that must have been in a node when the period began, for the picks so far. */
  readonly nodeNeed: Int32Array;
  readonly roomNeed: Int32Array;
  /** Parts more than at the beginning, now; may be below 0. */
  readonly roomCount: Int32Array;
  readonly picksDone: Int32Array;
  readonly placesDone: Int32Array;
  private readonly nodeCount: Int32Array;
  /** The most of `roomCount` so far. */
  private readonly roomTop: Int32Array;
  /** By the kind of an entry. */
  private readonly counts: readonly Int32Array[];
  private readonly undo: Int32Array;
  private undoTop = 0;

  constructor(private readonly plan: Plan) {
    const byNode = (): Int32Array => new Int32Array(plan.nodes.length);
    const byRoom = (): Int32Array => new Int32Array(plan.rooms.length);
    this.nodeCount = byNode();
    this.nodeNeed = byNode();
    this.roomCount = byRoom();
    this.roomNeed = byRoom();
    this.roomTop = byRoom();
    this.picksDone = byNode();
    this.placesDone = byNode();
    const counts: Int32Array[] = [];
    counts[NODE_COUNT] = this.nodeCount;
    counts[NODE_NEED] = this.nodeNeed;
    counts[ROOM_COUNT] = this.roomCount;
    counts[ROOM_NEED] = this.roomNeed;
    counts[ROOM_TOP] = this.roomTop;
    counts[PICKS_DONE] = this.picksDone;
    counts[PLACES_DONE] = this.placesDone;
    this.counts = counts;
    const events = plan.events.reduce((sum, event) => sum + event.count, 0);
    this.undo = new Int32Array((events + 4) * UNDO_PER_EVENT);
  }

  /** False where the room cannot hold what the order needs. */
  takeFrom(node: number): boolean {
    const room = this.plan.nodes[node]!.room;
    if (room < 0) return true;
    this.set(NODE_COUNT, node, this.nodeCount[node]! - 1);
    this.set(ROOM_COUNT, room, this.roomCount[room]! - 1);
    if (-this.nodeCount[node]! > this.nodeNeed[node]!) {
      this.set(NODE_NEED, node, this.nodeNeed[node]! + 1);
      this.set(ROOM_NEED, room, this.roomNeed[room]! + 1);
    }
    return this.fits(room);
  }

  /** False where the room cannot hold what the order needs. */
  putInto(node: number): boolean {
    const room = this.plan.nodes[node]!.room;
    if (room < 0) return true;
    this.set(NODE_COUNT, node, this.nodeCount[node]! + 1);
    this.set(ROOM_COUNT, room, this.roomCount[room]! + 1);
    if (this.roomCount[room]! > this.roomTop[room]!) this.set(ROOM_TOP, room, this.roomCount[room]!);
    return this.fits(room);
  }

  /** Counts one more pick at a node; returns its number, from 0. */
  countPick(node: number): number {
    const index = this.picksDone[node]!;
    this.set(PICKS_DONE, node, index + 1);
    return index;
  }

  /** The same of a place. */
  countPlace(node: number): number {
    const index = this.placesDone[node]!;
    this.set(PLACES_DONE, node, index + 1);
    return index;
  }

  /** Where the counts stand, for `backTo`. */
  mark(): number {
    return this.undoTop;
  }

  backTo(mark: number): void {
    const { undo, counts } = this;
    while (this.undoTop > mark) {
      this.undoTop -= 3;
      counts[undo[this.undoTop]!]![undo[this.undoTop + 1]!] = undo[this.undoTop + 2]!;
    }
  }

  private fits(room: number): boolean {
    return this.roomNeed[room]! + this.roomTop[room]! <= this.plan.rooms[room]!.capacity;
  }

  private set(kind: number, index: number, value: number): void {
    const count = this.counts[kind]!;
    this.undo[this.undoTop++] = kind;
    this.undo[this.undoTop++] = index;
    this.undo[this.undoTop++] = count[index]!;
    count[index] = value;
  }
}
