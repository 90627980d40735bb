/**
 * Powers of e that are the same to the last bit wherever they are worked out; the language leaves the last bits of
 * `Math.exp` to each engine.
 *
 * After the method of FDLIBM (e_exp.c, s_expm1.c): Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 * Developed at SunPro, a Sun Microsystems, Inc. business. Permission to use, copy, modify, and distribute this software
 * is freely granted, provided that this notice is preserved.
 */
import { fromHighWord, highWord, withHighWord } from './words.js';

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const INVERSE_LN2 = Math.LOG2E;
/** Above it the result is too large, below the other too small. */
const LARGEST = 709.782712893384;
const SMALLEST = -745.1332191019411;
const TWO_M1000 = 9.332636185032189e-302;
const TWO_1023 = 8.98846567431158e307;
const E = Math.E;

const P1 = 0.16666666666666602;
const P2 = -0.0027777777777015593;
const P3 = 0.00006613756321437934;
const P4 = -0.0000016533902205465252;
const P5 = 4.1381367970572385e-8;

export function exp(x: number): number {
  const signed = highWord(x);
  const isNegative = signed < 0;
  const hx = signed & 0x7fffffff;
  if (hx >= 0x40862e42) {
    if (Number.isNaN(x)) return x;
    if (x > LARGEST) return Number.POSITIVE_INFINITY;
    if (x < SMALLEST) return 0;
  }
  let k = 0;
  let high = 0;
  let low = 0;
  if (hx > 0x3fd62e42) {
    if (hx < 0x3ff0a2b2) {
      if (x === 1) return E;
      k = isNegative ? -1 : 1;
      high = x - k * LN2_HIGH;
      low = k * LN2_LOW;
    } else {
      k = Math.trunc(INVERSE_LN2 * x + (isNegative ? -0.5 : 0.5));
      high = x - k * LN2_HIGH;
      low = k * LN2_LOW;
    }
    x = high - low;
  } else if (hx < 0x3e300000) return 1 + x;
  const t = x * x;
  const twoToK =
    k === 0
      ? 1
      : k >= -1021
        ? fromHighWord(0x3ff00000 + (k << 20))
        : fromHighWord(0x3ff00000 + ((k + 1000) << 20));
  const c = x - t * (P1 + t * (P2 + t * (P3 + t * (P4 + t * P5))));
  if (k === 0) return 1 - ((x * c) / (c - 2) - x);
  const y = 1 - (low - (x * c) / (2 - c) - high);
  if (k >= -1021) return k === 1024 ? y * 2 * TWO_1023 : y * twoToK;
  return y * twoToK * TWO_M1000;
}

const Q1 = -0.03333333333333313;
const Q2 = 0.0015873015872548146;
const Q3 = -0.0000793650757867488;
const Q4 = 0.000004008217827329362;
const Q5 = -2.0109921818362437e-7;

/** The power of e less 1, exact also where x is small. */
export function expm1(x: number): number {
  const signed = highWord(x);
  const isNegative = signed < 0;
  const hx = signed & 0x7fffffff;
  if (hx >= 0x4043687a) {
    if (hx >= 0x40862e42) {
      if (Number.isNaN(x)) return x;
      if (x === Number.NEGATIVE_INFINITY) return -1;
      if (x > LARGEST) return Number.POSITIVE_INFINITY;
    }
    if (isNegative) return -1;
  }
  let k = 0;
  let c = 0;
  if (hx > 0x3fd62e42) {
    if (hx < 0x3ff0a2b2) k = isNegative ? -1 : 1;
    else k = Math.trunc(INVERSE_LN2 * x + (isNegative ? -0.5 : 0.5));
    const high = x - k * LN2_HIGH;
    const low = k * LN2_LOW;
    x = high - low;
    c = high - x - low;
  } else if (hx < 0x3c900000) return x;
  const half = 0.5 * x;
  const hxs = x * half;
  const r1 = 1 + hxs * (Q1 + hxs * (Q2 + hxs * (Q3 + hxs * (Q4 + hxs * Q5))));
  let t = 3 - r1 * half;
  let e = hxs * ((r1 - t) / (6 - x * t));
  if (k === 0) return x - (x * e - hxs);
  e = x * (e - c) - c;
  e -= hxs;
  if (k === -1) return 0.5 * (x - e) - 0.5;
  if (k === 1) return x < -0.25 ? -2 * (e - (x + 0.5)) : 1 + 2 * (x - e);
  if (k <= -2 || k > 56) {
    const y = 1 - (e - x);
    return (k === 1024 ? y * 2 * TWO_1023 : scaled(y, k)) - 1;
  }
  if (k < 20) {
    t = fromHighWord(0x3ff00000 - (0x200000 >> k));
    return scaled(t - (e - x), k);
  }
  t = fromHighWord((0x3ff - k) << 20);
  return scaled(x - (e + t) + 1, k);
}

function scaled(y: number, k: number): number {
  return withHighWord(y, highWord(y) + (k << 20));
}
