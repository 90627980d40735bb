/**
 * Sine and cosine that are the same to the last bit wherever they are worked out; the language leaves the last bits of
 * `Math.sin` and `Math.cos` to each engine.
 *
 * After the method of FDLIBM (k_sin.c, k_cos.c, e_rem_pio2.c): Copyright (C) 1993 by Sun Microsystems, Inc. All rights
 * reserved. Developed at SunPro, a Sun Microsystems, Inc. business. Permission to use, copy, modify, and distribute this
 * software is freely granted, provided that this notice is preserved.
 */
import { highWord, withHighWord } from './words.js';

/** Half of pi in pieces of 33 digits, with what is left after each. */
const HALF_PI_1 = 1.5707963267341256;
const HALF_PI_1_TAIL = 6.077100506506192e-11;
const HALF_PI_2 = 6.077100506303966e-11;
const HALF_PI_2_TAIL = 2.0222662487959506e-21;
const HALF_PI_3 = 2.0222662487111665e-21;
const HALF_PI_3_TAIL = 8.4784276603689e-32;
const INVERSE_HALF_PI = 0.6366197723675814;

/** @param x radians, of an amount below 800,000 */
export function sin(x: number): number {
  const [n, y, tail] = quarters(x);
  const amount = n & 1 ? cosOf(y, tail) : sinOf(y, tail);
  return n & 2 ? -amount : amount;
}

/** @param x radians, of an amount below 800,000 */
export function cos(x: number): number {
  const [n, y, tail] = quarters(x);
  const amount = n & 1 ? sinOf(y, tail) : cosOf(y, tail);
  return (n + 1) & 2 ? -amount : amount;
}

/** The angle less n quarters of a turn, in two pieces of at most an eighth of a turn. */
function quarters(x: number): readonly [n: number, y: number, tail: number] {
  const ix = highWord(x) & 0x7fffffff;
  if (ix <= 0x3fe921fb) return [0, x, 0];
  const t = Math.abs(x);
  const n = Math.trunc(t * INVERSE_HALF_PI + 0.5);
  const exponent = ix >> 20;
  const lost = (y: number): number => exponent - ((highWord(y) >> 20) & 0x7ff);
  let r = t - n * HALF_PI_1;
  let w = n * HALF_PI_1_TAIL;
  let y = r - w;
  if (lost(y) > 16) {
    let before = r;
    w = n * HALF_PI_2;
    r = before - w;
    w = n * HALF_PI_2_TAIL - (before - r - w);
    y = r - w;
    if (lost(y) > 49) {
      before = r;
      w = n * HALF_PI_3;
      r = before - w;
      w = n * HALF_PI_3_TAIL - (before - r - w);
      y = r - w;
    }
  }
  const tail = r - y - w;
  return x < 0 ? [-n, -y, -tail] : [n, y, tail];
}

const S1 = -0.16666666666666632;
const S2 = 0.00833333333332249;
const S3 = -0.0001984126982985795;
const S4 = 0.0000027557313707070068;
const S5 = -2.5050760253406863e-8;
const S6 = 1.58969099521155e-10;

function sinOf(x: number, tail: number): number {
  if ((highWord(x) & 0x7fffffff) < 0x3e400000) return x;
  const z = x * x;
  const v = z * x;
  const r = S2 + z * (S3 + z * (S4 + z * (S5 + z * S6)));
  return tail === 0 ? x + v * (S1 + z * r) : x - (z * (0.5 * tail - v * r) - tail - v * S1);
}

const C1 = 0.0416666666666666;
const C2 = -0.001388888888887411;
const C3 = 0.00002480158728947673;
const C4 = -2.7557314351390663e-7;
const C5 = 2.087572321298175e-9;
const C6 = -1.1359647557788195e-11;

function cosOf(x: number, tail: number): number {
  const ix = highWord(x) & 0x7fffffff;
  if (ix < 0x3e400000) return 1;
  const z = x * x;
  const r = z * (C1 + z * (C2 + z * (C3 + z * (C4 + z * (C5 + z * C6)))));
  if (ix < 0x3fd33333) return 1 - (0.5 * z - (z * r - x * tail));
  const qx = ix > 0x3fe90000 ? 0.28125 : withHighWord(0, ix - 0x00200000);
  const half = 0.5 * z - qx;
  return 1 - qx - (half - (z * r - x * tail));
}
