/** The two halves of a number as it is kept in memory, which the functions of this folder work on. */

const numbers = new Float64Array(1);
const halves = new Uint32Array(numbers.buffer);
/** On some processors the higher half comes first. */
const HIGH = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1 ? 1 : 0;
const LOW = 1 - HIGH;

/** Sign, exponent and the first 20 digits, as a signed whole number. */
export function highWord(x: number): number {
  numbers[0] = x;
  return halves[HIGH]! | 0;
}

/** The last 32 digits, as an unsigned whole number. */
export function lowWord(x: number): number {
  numbers[0] = x;
  return halves[LOW]!;
}

export function withHighWord(x: number, high: number): number {
  numbers[0] = x;
  halves[HIGH] = high;
  return numbers[0]!;
}

export function withoutLowWord(x: number): number {
  numbers[0] = x;
  halves[LOW] = 0;
  return numbers[0]!;
}

/** A power of two from its high word. */
export function fromHighWord(high: number): number {
  numbers[0] = 0;
  halves[HIGH] = high;
  return numbers[0]!;
}
