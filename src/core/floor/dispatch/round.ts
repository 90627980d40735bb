/**
 * What a robot that answers calls may do next, as a plain value: which part is picked, and which place it fills. Choosing
 * changes nothing; only when a round is begun does the robot move.
 */

export const NONE = -1;

/** A part that can be picked: a raw one at an infeed, or a finished one in a slot. */
export interface PartToPick {
  readonly station: number;
  /** The operation that it leaves. */
  readonly op: number;
  /** NONE = a raw part. */
  readonly slot: number;
  /** Which infeed of the operation; NONE = it leaves a slot. */
  readonly choice: number;
}

/** A place that a part can fill: a slot, or an outfeed. */
export interface PlaceToFill {
  readonly station: number;
  /** The operation that the part comes to. */
  readonly op: number;
  /** NONE = an outfeed. */
  readonly slot: number;
  /** Which outfeed of the operation; NONE = a slot. */
  readonly choice: number;
  /** The finished part in the slot is taken out first, with the other hand, and stays in hand. */
  readonly swap: boolean;
}

export interface Round {
  /** null = the part in hand. */
  readonly pick: PartToPick | null;
  readonly place: PlaceToFill;
}

/** A round that answers a call. */
export interface CallRound extends Round {
  readonly pick: PartToPick;
}
