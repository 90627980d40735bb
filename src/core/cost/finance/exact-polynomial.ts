/**
 * Polynomials with whole-number coefficients (constant term first) and their positive real roots, exactly.
 *
 * Isolation bisects (0, B) with Descartes' rule of signs on each piece (Collins & Akritas, "Polynomial real root
 * isolation using Descartes' rule of signs", 1976); a polynomial is first freed of repeated factors by its greatest
 * common divisor with its derivative (subresultant remainders, Knuth, *The Art of Computer Programming* vol. 2, 4.6.1).
 */

/** lo/2^shift <= root <= hi/2^shift; lo = hi when the root is hit exactly. */
export interface RootInterval {
  readonly lo: bigint;
  readonly hi: bigint;
  readonly shift: number;
}

/** Shares of a root's own size to which it is refined: 2^-90. */
const REFINE_BITS = 90n;
/** A prime whose square fits a number exactly. */
const PRIME = 67_108_859;

/** Numbers as the decimals they print as, times the power of ten that makes all of them whole. */
export function polynomialFromDecimals(values: readonly number[]): bigint[] {
  const parts = values.map(decimalParts);
  const least = Math.min(...parts.map((part) => part.exponent));
  return parts.map((part) => part.digits * 10n ** BigInt(part.exponent - least));
}

function decimalParts(value: number): { digits: bigint; exponent: number } {
  const [mantissa = '0', exponent = '0'] = value.toExponential().split('e');
  const [whole = '0', fraction = ''] = mantissa.split('.');
  return { digits: BigInt(whole + fraction), exponent: Number(exponent) - fraction.length };
}

/** Without zero coefficients at either end (a factor x^k has no positive root). */
export function trimmed(polynomial: readonly bigint[]): bigint[] {
  let from = 0;
  let to = polynomial.length;
  while (to > from && polynomial[to - 1] === 0n) to--;
  while (from < to && polynomial[from] === 0n) from++;
  return polynomial.slice(from, to);
}

export function derivative(polynomial: readonly bigint[]): bigint[] {
  return polynomial.slice(1).map((coefficient, k) => coefficient * BigInt(k + 1));
}

/** Changes of sign along the coefficients, zeros passed over: an upper bound of the positive roots (Descartes). */
export function signChanges(polynomial: readonly bigint[]): number {
  let changes = 0;
  let last = 0n;
  for (const coefficient of polynomial) {
    if (coefficient === 0n) continue;
    if (last !== 0n && coefficient > 0n !== last > 0n) changes++;
    last = coefficient;
  }
  return changes;
}

/** The same roots, each once, by coefficients without a common factor. */
export function squareFreePart(polynomial: readonly bigint[]): bigint[] {
  const slope = trimmedHigh(derivative(polynomial));
  if (slope.length < 2 || coprimeModuloPrime(polynomial, slope)) return primitive(polynomial);
  const common = greatestCommonDivisor(polynomial, slope);
  return common.length < 2 ? primitive(polynomial) : primitive(pseudoDivide(polynomial, common).quotient);
}

/** One interval for each positive root of a polynomial without repeated factors; the intervals do not overlap. */
export function positiveRootIntervals(polynomial: readonly bigint[]): RootInterval[] {
  const bound = rootBoundBits(polynomial);
  if (signChanges(polynomial) === 0) return [];
  if (signChanges(polynomial) === 1) return [dyadic(0n, 1n, -bound)];
  const found: RootInterval[] = [];
  const open = [{ piece: scaled(polynomial, bound), start: 0n, depth: 0 }];
  for (let next = open.pop(); next; next = open.pop()) {
    const { piece, start, depth } = next;
    const changes = signChanges(shiftedByOne([...piece].reverse()));
    if (changes === 0) continue;
    if (changes === 1) {
      found.push(dyadic(start, start + 1n, depth - bound));
      continue;
    }
    const left = scaled(piece, -1);
    const right = shiftedByOne(left);
    if (right[0] === 0n) found.push(dyadic(2n * start + 1n, 2n * start + 1n, depth + 1 - bound));
    open.push({ piece: left, start: 2n * start, depth: depth + 1 });
    open.push({ piece: trimmedLow(right), start: 2n * start + 1n, depth: depth + 1 });
  }
  return found;
}

/** Narrows an interval to the root's x and the rate 1/x - 1, both right to the last digits of a number. */
export function refineRoot(
  polynomial: readonly bigint[],
  interval: RootInterval,
): { x: number; rate: number } {
  let { lo, hi, shift } = interval;
  const before = signRightOf(polynomial, lo, shift);
  while (hi > lo && (hi - lo) << REFINE_BITS > lo) {
    const middle = lo + hi;
    shift++;
    const sign = signAt(polynomial, middle, shift);
    lo = sign === 0 || sign === before ? middle : lo * 2n;
    hi = sign === 0 || sign !== before ? middle : hi * 2n;
  }
  const one = 1n << BigInt(shift);
  return { x: ratio(lo, one), rate: ratio(one - lo, lo) };
}

function dyadic(lo: bigint, hi: bigint, shift: number): RootInterval {
  if (shift >= 0) return { lo, hi, shift };
  return { lo: lo << BigInt(-shift), hi: hi << BigInt(-shift), shift: 0 };
}

/** p(2^bits x), times a power of two that keeps the coefficients whole. */
function scaled(polynomial: readonly bigint[], bits: number): bigint[] {
  const top = polynomial.length - 1;
  const step = BigInt(Math.abs(bits));
  return polynomial.map((c, k) => c << (step * BigInt(bits >= 0 ? k : top - k)));
}

/** p(x + 1), by repeated sums. */
function shiftedByOne(polynomial: readonly bigint[]): bigint[] {
  const out = [...polynomial];
  for (let i = 0; i < out.length - 1; i++)
    for (let k = out.length - 2; k >= i; k--) out[k] = out[k]! + out[k + 1]!;
  return out;
}

/** b with every positive root below 2^b: twice the largest (|a_i| / |a_n|)^(1/(n-i)) (Lagrange; Fujiwara 1916). */
function rootBoundBits(polynomial: readonly bigint[]): number {
  const top = polynomial.length - 1;
  const lead = bitLength(polynomial[top]!);
  const bits = polynomial.slice(0, top).map((c, k) => Math.ceil((bitLength(c) - lead + 1) / (top - k)));
  return Math.max(...bits) + 1;
}

function bitLength(value: bigint): number {
  return value === 0n ? 0 : magnitude(value).toString(2).length;
}

function magnitude(value: bigint): bigint {
  return value < 0n ? -value : value;
}

function signAt(polynomial: readonly bigint[], a: bigint, shift: number): number {
  const step = BigInt(shift);
  let value = 0n;
  let room = 0n;
  for (let k = polynomial.length - 1; k >= 0; k--) {
    value = value * a + (polynomial[k]! << room);
    room += step;
  }
  return value === 0n ? 0 : value > 0n ? 1 : -1;
}

/** Sign just right of a point: that of the slope where the point itself is a root (no repeated roots here). */
function signRightOf(polynomial: readonly bigint[], a: bigint, shift: number): number {
  return signAt(polynomial, a, shift) || signAt(derivative(polynomial), a, shift);
}

/** The nearest number to numerator / denominator, whatever their sizes. */
function ratio(numerator: bigint, denominator: bigint): number {
  if (numerator === 0n) return 0;
  const up = Math.max(0, 66 - bitLength(numerator) + bitLength(denominator));
  const down = Math.max(0, bitLength(numerator) - bitLength(denominator) - 66);
  const quotient = (numerator << BigInt(up)) / (denominator << BigInt(down));
  return Number(quotient) * 2 ** (down - up);
}

function trimmedHigh(polynomial: readonly bigint[]): bigint[] {
  let to = polynomial.length;
  while (to > 0 && polynomial[to - 1] === 0n) to--;
  return polynomial.slice(0, to);
}

function trimmedLow(polynomial: readonly bigint[]): bigint[] {
  let from = 0;
  while (from < polynomial.length && polynomial[from] === 0n) from++;
  return polynomial.slice(from);
}

function primitive(polynomial: readonly bigint[]): bigint[] {
  let common = 0n;
  for (const coefficient of polynomial) {
    common = integerGcd(common, magnitude(coefficient));
    if (common === 1n) return [...polynomial];
  }
  return common === 0n ? [...polynomial] : polynomial.map((c) => c / common);
}

function integerGcd(a: bigint, b: bigint): bigint {
  while (b !== 0n) [a, b] = [b, a % b];
  return a;
}

/** True only if the two certainly share no factor; a factor modulo one prime settles nothing. */
function coprimeModuloPrime(a: readonly bigint[], b: readonly bigint[]): boolean {
  const reduce = (p: readonly bigint[]) =>
    p.map((c) => Number(((c % BigInt(PRIME)) + BigInt(PRIME)) % BigInt(PRIME)));
  let high = reduce(a);
  let low = reduce(b);
  if (high.at(-1) === 0 || low.at(-1) === 0) return false;
  while (low.length > 1) [high, low] = [low, remainderModuloPrime(high, low)];
  return low.length === 1;
}

function remainderModuloPrime(a: readonly number[], b: readonly number[]): number[] {
  const rest = [...a];
  const inverse = powerModuloPrime(b.at(-1)!, PRIME - 2);
  while (rest.length >= b.length) {
    const factor = (rest.at(-1)! * inverse) % PRIME;
    const offset = rest.length - b.length;
    for (let k = 0; k < b.length; k++)
      rest[offset + k] = (rest[offset + k]! + PRIME - ((factor * b[k]!) % PRIME)) % PRIME;
    while (rest.length > 0 && rest.at(-1) === 0) rest.pop();
  }
  return rest;
}

function powerModuloPrime(base: number, exponent: number): number {
  let result = 1;
  for (let factor = base, left = exponent; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result = (result * factor) % PRIME;
    factor = (factor * factor) % PRIME;
  }
  return result;
}

function greatestCommonDivisor(first: readonly bigint[], second: readonly bigint[]): bigint[] {
  let a = primitive(first);
  let b = primitive(second);
  let g = 1n;
  let h = 1n;
  while (b.length > 1) {
    const gap = BigInt(a.length - b.length);
    const rest = pseudoDivide(a, b).rest;
    const divisor = g * h ** gap;
    a = b;
    b = rest.map((c) => c / divisor);
    g = a.at(-1)!;
    h = gap === 0n ? h : g ** gap / h ** (gap - 1n);
  }
  return b.length === 1 ? [1n] : primitive(a);
}

/** lead(b)^(deg a - deg b + 1) a = quotient b + rest. */
function pseudoDivide(a: readonly bigint[], b: readonly bigint[]): { quotient: bigint[]; rest: bigint[] } {
  const lead = b.at(-1)!;
  const steps = a.length - b.length + 1;
  const quotient = Array.from({ length: steps }, () => 0n);
  let rest = [...a];
  for (let offset = steps - 1; offset >= 0; offset--) {
    const top = rest[offset + b.length - 1]!;
    for (let k = 0; k < steps; k++) quotient[k] = quotient[k]! * lead;
    quotient[offset] = quotient[offset]! + top;
    rest = rest.map((c, k) => c * lead - (k >= offset && k < offset + b.length ? top * b[k - offset]! : 0n));
  }
  return { quotient, rest: trimmedHigh(rest.slice(0, b.length - 1)) };
}
