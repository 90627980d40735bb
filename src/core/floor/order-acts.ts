/** The acts of a repeating order, in the numbers of a compiled cell. */
export const PICK = 0;
export const PLACE = 1;
export const HOLD = 2;

export interface OrderActs {
  readonly count: number;
  readonly action: Uint8Array;
  readonly station: Int32Array;
  readonly op: Int32Array;
}
