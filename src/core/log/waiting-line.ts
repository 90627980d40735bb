/** Things under way at one station, first in first out; of one part where the log names parts. */

/** @param part -1 = not known */
export interface UnderWay {
  readonly timeS: number;
  readonly part: number;
  /** Number of the stretch of the log without a break in which it began. */
  readonly stretch: number;
}

/** Takes out the oldest of the given part, or the oldest of all where the part is not known. */
export function takeOldest<T extends UnderWay>(line: T[], part: number): T | undefined {
  if (line.length < 2 || part < 0) return line.shift();
  const at = line.findIndex((u) => u.part === part);
  return at < 0 ? line.shift() : line.splice(at, 1)[0];
}

/** The oldest of the given part, or the oldest of all. */
export function oldest<T extends UnderWay>(line: readonly T[], part: number): T | undefined {
  return (part < 0 ? undefined : line.find((u) => u.part === part)) ?? line[0];
}
