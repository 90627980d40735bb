/**
 * Powers that are the same to the last bit wherever they are worked out; the language leaves the last bits of `Math.pow`
 * and `**` to each engine.
 *
 * After the method of FDLIBM (e_pow.c): Copyright (C) 2004 by Sun Microsystems, Inc. All rights reserved. Permission to
 * use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */
import { highWord, withHighWord, withoutLowWord } from './words.js';

const TWO_53 = 2 ** 53;
const L1 = 0.5999999999999946;
const L2 = 0.4285714285785502;
const L3 = 0.33333332981837743;
const L4 = 0.272728123808534;
const L5 = 0.23066074577556175;
const L6 = 0.20697501780033842;
const P1 = 0.16666666666666602;
const P2 = -0.0027777777777015593;
const P3 = 0.00006613756321437934;
const P4 = -0.0000016533902205465252;
const P5 = 4.1381367970572385e-8;
const LN2 = Math.LN2;
const LN2_HIGH = 0.6931471824645996;
const LN2_LOW = -1.904654299957768e-9;
/** Just above the logarithm to base 2 at which the result is too large. */
const OVER = 8.008566259537294e-17;
const CP = 0.9617966939259756;
const CP_HIGH = 0.9617967009544373;
const CP_LOW = -7.028461650952758e-9;
const BP = [1, 1.5] as const;
const DP_HIGH = [0, 0.5849624872207642] as const;
const DP_LOW = [0, 1.350039202129749e-8] as const;

/** @param x 0 or more, finite; @param y finite */
export function power(x: number, y: number): number {
  if (y === 0 || x === 1) return 1;
  if (y === 1) return x;
  if (y === 2) return x * x;
  if (y === -1) return 1 / x;
  if (y === 0.5) return Math.sqrt(x);
  // The special cases of the language are the same everywhere.
  if (!(x > 0 && x < Number.POSITIVE_INFINITY && Number.isFinite(y))) return x ** y;
  const [high, low] = logTwo(x);
  const yHigh = withoutLowWord(y);
  const small = (y - yHigh) * high + y * low;
  const large = yHigh * high;
  return twoTo(large, small);
}

/** The logarithm to base 2 in two pieces. */
function logTwo(given: number): readonly [number, number] {
  let ax = given;
  let n = 0;
  let ix = highWord(ax);
  if (ix < 0x00100000) {
    ax *= TWO_53;
    n -= 53;
    ix = highWord(ax);
  }
  n += (ix >> 20) - 0x3ff;
  const j = ix & 0x000fffff;
  ix = j | 0x3ff00000;
  let k: 0 | 1 = 0;
  if (j > 0x3988e) {
    if (j < 0xbb67a) k = 1;
    else {
      n += 1;
      ix -= 0x00100000;
    }
  }
  ax = withHighWord(ax, ix);
  const u = ax - BP[k];
  const v = 1 / (ax + BP[k]);
  const ss = u * v;
  const sHigh = withoutLowWord(ss);
  let tHigh = withHighWord(0, ((ix >> 1) | 0x20000000) + 0x00080000 + (k << 18));
  let tLow = ax - (tHigh - BP[k]);
  const sLow = v * (u - sHigh * tHigh - sHigh * tLow);
  let s2 = ss * ss;
  let r = s2 * s2 * (L1 + s2 * (L2 + s2 * (L3 + s2 * (L4 + s2 * (L5 + s2 * L6)))));
  r += sLow * (sHigh + ss);
  s2 = sHigh * sHigh;
  tHigh = withoutLowWord(3 + s2 + r);
  tLow = r - (tHigh - 3 - s2);
  const first = sHigh * tHigh;
  const second = sLow * tHigh + tLow * ss;
  const pHigh = withoutLowWord(first + second);
  const pLow = second - (pHigh - first);
  const zHigh = CP_HIGH * pHigh;
  const zLow = CP_LOW * pHigh + pLow * CP + DP_LOW[k];
  const high = withoutLowWord(zHigh + zLow + DP_HIGH[k] + n);
  return [high, zLow - (high - n - DP_HIGH[k] - zHigh)];
}

/** 2 to the power of a sum. */
function twoTo(large: number, small: number): number {
  const z = large + small;
  if (z >= 1024 && (z > 1024 || small + OVER > z - large)) return Number.POSITIVE_INFINITY;
  if (z <= -1075 && (z < -1075 || small <= z - large)) return 0;
  let whole = large;
  const j = highWord(z);
  const i = j & 0x7fffffff;
  let k = (i >> 20) - 0x3ff;
  let n = 0;
  if (i > 0x3fe00000) {
    n = j + (0x00100000 >> (k + 1));
    k = ((n & 0x7fffffff) >> 20) - 0x3ff;
    const t = withHighWord(0, n & ~(0x000fffff >> k));
    n = ((n & 0x000fffff) | 0x00100000) >> (20 - k);
    if (j < 0) n = -n;
    whole -= t;
  }
  let t = withoutLowWord(small + whole);
  const u = t * LN2_HIGH;
  const v = (small - (t - whole)) * LN2 + t * LN2_LOW;
  let result = u + v;
  const w = v - (result - u);
  t = result * result;
  const t1 = result - t * (P1 + t * (P2 + t * (P3 + t * (P4 + t * P5))));
  const r = (result * t1) / (t1 - 2) - (w + result * w);
  result = 1 - (r - result);
  const high = highWord(result) + (n << 20);
  if (high >> 20 <= 0) return result * 2 ** Math.max(n, -1000) * (n < -1000 ? 2 ** (n + 1000) : 1);
  return withHighWord(result, high);
}
