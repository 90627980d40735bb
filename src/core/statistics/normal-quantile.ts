/**
 * Quantile of the standard normal distribution.
 *
 * Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477-484, routine PPND16: rational functions in three ranges,
 * about 16 digits.
 */
import { log } from '../numbers/functions.js';

const CENTRE_NUM = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
  1971.5909503065513, 133.14166789178438, 3.3871328727963665,
] as const;
const CENTRE_DEN = [
  5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
  687.1870074920579, 42.31333070160091, 1.0,
] as const;
const MIDDLE_NUM = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
  5.769497221460691, 4.630337846156546, 1.4234371107496835,
] as const;
const MIDDLE_DEN = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
  1.6763848301838038, 2.053191626637759, 1.0,
] as const;
const TAIL_NUM = [
  2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
  0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
] as const;
const TAIL_DEN = [
  2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
  0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1.0,
] as const;

/**
 * @param p probability, 0 < p < 1
 * @returns z with P(Z <= z) = p
 * @throws RangeError where p is not strictly between 0 and 1
 * @example normalQuantile(0.975) // 1.959963984540054
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError('a probability must lie between 0 and 1');
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(CENTRE_NUM, r)) / polynomial(CENTRE_DEN, r);
  }
  const r = Math.sqrt(-log(q < 0 ? p : 1 - p));
  const z =
    r <= 5
      ? polynomial(MIDDLE_NUM, r - 1.6) / polynomial(MIDDLE_DEN, r - 1.6)
      : polynomial(TAIL_NUM, r - 5) / polynomial(TAIL_DEN, r - 5);
  return q < 0 ? -z : z;
}

/** Eight coefficients, highest power first (Horner's scheme). */
function polynomial(c: readonly number[], x: number): number {
  let sum = c[0]!;
  for (let i = 1; i < 8; i++) sum = sum * x + c[i]!;
  return sum;
}
