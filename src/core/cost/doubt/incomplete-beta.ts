/** Regularized incomplete beta function. */

/** Lanczos coefficients, g = 7, n = 9 (Lanczos 1964; the common double-precision set). */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Natural logarithm of the gamma function for x above 0.5. */
function logGamma(x: number): number {
  const z = x - 1;
  const t = z + 7.5;
  const series = LANCZOS.slice(1).reduce((sum, c, k) => sum + c / (z + k + 1), LANCZOS[0]!);
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(series);
}

/** Logarithm of the beta function B(a, b), a and b above 0.5. */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/**
 * I_x(a, b): the share of a beta distribution below x. By Lentz's continued fraction (Abramowitz & Stegun 26.5.8).
 *
 * @param x 0 to 1
 * @param a above 0.5
 * @param b above 0.5
 * @example incompleteBeta(0.5, 2, 2) // 0.5
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta(a, b)) / a;
  return front * continuedFraction(x, a, b);
}

function continuedFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let f = d;
  for (let m = 1; m <= 300; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    f *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    f *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return f;
}
