/**
 * Random numbers: one independent stream for every named element, so that two cells run under one seed meet the same
 * luck element by element (common random numbers).
 *
 * The generator is xoroshiro128+ (Blackman and Vigna, 2018), its state kept in one typed array for all streams; the
 * outputs equal those of the package pure-rand from the same state, which a test compares bit by bit. A stream's state
 * is a hash of (seed, name, replication), because near seeds give near first draws otherwise.
 */

/** Spreads the bits of a 32-bit word (finalizer of MurmurHash3, Appleby, public domain). */
function mix(word: number): number {
  let h = word | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/**
 * State of a stream: four 32-bit words, never all zero.
 *
 * @param seed any finite number; 64 bits of it count
 * @param name element the stream belongs to, such as `cycle mill_1`
 * @param replication 0, 1, 2 ...
 */
export function streamState(
  seed: number,
  name: string,
  replication: number,
): [number, number, number, number] {
  const bits = new Int32Array(new Float64Array([seed + 0]).buffer);
  const state: [number, number, number, number] = [0, 0, 0, 0];
  for (let lane = 0; lane < 4; lane++) {
    let h = mix(0x9e3779b9 * (lane + 1));
    h = mix(Math.imul(h, 31) + bits[0]!);
    h = mix(Math.imul(h, 31) + bits[1]!);
    h = mix(Math.imul(h, 31) + replication);
    for (let i = 0; i < name.length; i++) h = mix(Math.imul(h, 31) + name.charCodeAt(i) + (i << 16));
    state[lane] = h;
  }
  if ((state[0] | state[1] | state[2] | state[3]) === 0) state[0] = 1;
  return state;
}

/** Writes the state of stream `index` into the shared array (four words a stream). */
export function seedStream(
  states: Int32Array,
  index: number,
  seed: number,
  name: string,
  replication: number,
): void {
  states.set(streamState(seed, name, replication), index * 4);
}

/** Next 32 bits of stream `index`, as a signed whole number; the state moves on. */
export function nextBits(states: Int32Array, index: number): number {
  const at = index << 2;
  const s01 = states[at]!;
  const s00 = states[at + 1]!;
  const s11 = states[at + 2]!;
  const s10 = states[at + 3]!;
  const a0 = s10 ^ s00;
  const a1 = s11 ^ s01;
  states[at + 1] = (s00 << 24) ^ (s01 >>> 8) ^ a0 ^ (a0 << 16);
  states[at] = (s01 << 24) ^ (s00 >>> 8) ^ a1 ^ ((a1 << 16) | (a0 >>> 16));
  states[at + 3] = (a1 << 5) ^ (a0 >>> 27);
  states[at + 2] = (a0 << 5) ^ (a1 >>> 27);
  return (s00 + s10) | 0;
}

/** Next uniform number of stream `index`, strictly between 0 and 1 (the middles of 2^32 equal cells). */
export function nextUniform(states: Int32Array, index: number): number {
  return ((nextBits(states, index) >>> 0) + 0.5) * 2.3283064365386963e-10;
}
