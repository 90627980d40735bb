/**
 * Wright's formula for the interference of many machines under one attendant:
 * I = 50 { sqrt[(1 + X - N)^2 + 2 N] - (1 + X - N) }, in per cent of the attention time.
 *
 * Source: W. R. Wright, *Mechanical Engineering* 58, 1936, 510-514; recited in Freivalds and Niebel. Meant for more
 * than six machines; for fewer it runs high.
 *
 * @param machines N, 1 or more
 * @param runToAttention X: mean run time over mean attention time of one machine, 0 or more
 * @returns interference in per cent of the mean attention time, 0 or more
 * @throws RangeError where an argument is out of range
 * @example wrightInterference(60, 50) // 1158.9
 */
export function wrightInterference(machines: number, runToAttention: number): number {
  if (!(machines >= 1) || !Number.isFinite(machines)) throw new RangeError('machines must be 1 or more');
  if (!(runToAttention >= 0) || !Number.isFinite(runToAttention)) throw new RangeError('X must be 0 or more');
  const d = 1 + runToAttention - machines;
  const root = Math.sqrt(d * d + 2 * machines);
  // For d > 0 the difference of two near numbers is rewritten, which keeps its digits.
  return 50 * (d > 0 ? (2 * machines) / (root + d) : root - d);
}
