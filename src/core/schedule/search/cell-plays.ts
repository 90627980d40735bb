/**
 * What has been played on a cell so far, and what its sequences yield. The search goes over a cell several times, with
 * more visits or more work each time; a run or a sequence that comes again is not worked out again.
 */
import type { Cell } from '../../model/cell.js';
import { ListedStates } from '../every-sequence/every-sequence.js';
import type { Goal } from '../plan/weights.js';
import type { PlayedRun } from '../play/play-run.js';
import { type PlaySpace, playSpace } from '../play/play-space.js';
import { canTime, EventTimer } from '../play/sequence-rate.js';
import { stretchOrder } from '../play/stretch-order.js';
import { knownSet } from './known-orders.js';
import type { SetBest } from './search-set.js';

export class CellPlays {
  readonly space: PlaySpace;
  readonly states: ListedStates;
  private readonly timer: EventTimer | null;
  private readonly runs = new Map<string, PlayedRun>();
  private readonly sets = new Map<string, SetBest | null>();

  constructor(
    cell: Cell,
    private readonly goal: Goal,
  ) {
    this.space = playSpace(cell, goal);
    this.states = new ListedStates(this.space);
    this.timer = canTime(this.space) ? new EventTimer(this.space) : null;
  }

  /** @param name tells runs apart: whoever chooses, and for how long */
  run(name: string, play: () => PlayedRun): PlayedRun {
    const known = this.runs.get(name);
    if (known !== undefined) return known;
    const made = play();
    this.runs.set(name, made);
    return made;
  }

  /**
   * Value a second of events that repeat, quickly and never too good, mostly to the last digit.
   *
   * @returns null where the cell's sequences cannot be timed so
   */
  perS(events: readonly number[]): number | null {
    if (this.timer === null) return null;
    return this.timer.perS(events);
  }

  /** Visits to stations, of events that repeat: each ends with a pick there. */
  visitsOf(events: readonly number[]): number {
    const { plan } = this.space;
    const ends = ({ action, from }: (typeof plan.events)[number]): boolean =>
      action === 'pick' && plan.nodes[from]!.kind === 'inside';
    return events.filter((e) => ends(plan.events[e]!)).length;
  }

  /**
   * @param events events of the space's plan, as the robot does them
   * @returns null where they cannot be repeated, or do not keep the goal's mix
   */
  setOf(events: readonly number[]): SetBest | null {
    const key = events.join();
    const known = this.sets.get(key);
    if (known !== undefined) return known;
    const made = knownSet(this.space.cell, stretchOrder(this.space, events), this.goal);
    this.sets.set(key, made);
    return made;
  }
}
