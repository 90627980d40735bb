/**
 * Natural logarithms that are the same to the last bit wherever they are worked out. The language leaves the last bits of
 * `Math.log` to each engine, and they do differ between browsers and versions of Node.
 *
 * After the method of FDLIBM (e_log.c, s_log1p.c): Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.
 * Developed at SunPro, a Sun Microsystems, Inc. business. Permission to use, copy, modify, and distribute this software
 * is freely granted, provided that this notice is preserved.
 */
import { highWord, lowWord, withHighWord } from './words.js';

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const TWO_54 = 2 ** 54;

const L1 = 0.6666666666666735;
const L2 = 0.3999999999940942;
const L3 = 0.2857142874366239;
const L4 = 0.22222198432149784;
const L5 = 0.1818357216161805;
const L6 = 0.15313837699209373;
const L7 = 0.14798198605116586;

export function log(x: number): number {
  let hx = highWord(x);
  let k = 0;
  if (hx < 0x00100000) {
    if (((hx & 0x7fffffff) | lowWord(x)) === 0) return Number.NEGATIVE_INFINITY;
    if (hx < 0) return Number.NaN;
    // Too small for a full set of digits.
    k -= 54;
    x *= TWO_54;
    hx = highWord(x);
  }
  if (hx >= 0x7ff00000) return x + x;
  k += (hx >> 20) - 1023;
  hx &= 0x000fffff;
  let i = (hx + 0x95f64) & 0x100000;
  // To between the square roots of 1/2 and 2.
  x = withHighWord(x, hx | (i ^ 0x3ff00000));
  k += i >> 20;
  const f = x - 1;
  if ((0x000fffff & (2 + hx)) < 3) {
    if (f === 0) return k === 0 ? 0 : k * LN2_HIGH + k * LN2_LOW;
    const r = f * f * (0.5 - 0.3333333333333333 * f);
    return k === 0 ? f - r : k * LN2_HIGH - (r - k * LN2_LOW - f);
  }
  const s = f / (2 + f);
  const z = s * s;
  i = hx - 0x6147a;
  const w = z * z;
  const j = 0x6b851 - hx;
  const t1 = w * (L2 + w * (L4 + w * L6));
  const t2 = z * (L1 + w * (L3 + w * (L5 + w * L7)));
  const r = t2 + t1;
  if ((i | j) > 0) {
    const half = 0.5 * f * f;
    return k === 0 ? f - (half - s * (half + r)) : k * LN2_HIGH - (half - (s * (half + r) + k * LN2_LOW) - f);
  }
  return k === 0 ? f - s * (f - r) : k * LN2_HIGH - (s * (f - r) - k * LN2_LOW - f);
}

/** The logarithm of 1 + x, exact also where x is small. */
export function log1p(x: number): number {
  const hx = highWord(x);
  const ax = hx & 0x7fffffff;
  let k = 1;
  let f = 0;
  let hu = 1;
  let c = 0;
  if (hx < 0x3fda827a) {
    if (ax >= 0x3ff00000) return x === -1 ? Number.NEGATIVE_INFINITY : Number.NaN;
    if (ax < 0x3e200000) return ax < 0x3c900000 ? x : x - x * x * 0.5;
    if (hx > 0 || hx <= (0xbfd2bec4 | 0)) {
      k = 0;
      f = x;
      hu = 1;
    }
  }
  if (hx >= 0x7ff00000) return x + x;
  if (k !== 0) {
    let u = x;
    if (hx < 0x43400000) {
      u = 1 + x;
      hu = highWord(u);
      k = (hu >> 20) - 1023;
      c = k > 0 ? 1 - (u - x) : x - (u - 1);
      c /= u;
    } else {
      hu = highWord(u);
      k = (hu >> 20) - 1023;
    }
    hu &= 0x000fffff;
    if (hu < 0x6a09e) u = withHighWord(u, hu | 0x3ff00000);
    else {
      k += 1;
      u = withHighWord(u, hu | 0x3fe00000);
      hu = (0x00100000 - hu) >> 2;
    }
    f = u - 1;
  }
  const half = 0.5 * f * f;
  if (hu === 0) {
    if (f === 0) return k === 0 ? 0 : k * LN2_HIGH + (c + k * LN2_LOW);
    const r = half * (1 - 0.6666666666666666 * f);
    return k === 0 ? f - r : k * LN2_HIGH - (r - (k * LN2_LOW + c) - f);
  }
  const s = f / (2 + f);
  const z = s * s;
  const r = z * (L1 + z * (L2 + z * (L3 + z * (L4 + z * (L5 + z * (L6 + z * L7))))));
  return k === 0
    ? f - (half - s * (half + r))
    : k * LN2_HIGH - (half - (s * (half + r) + (k * LN2_LOW + c)) - f);
}
