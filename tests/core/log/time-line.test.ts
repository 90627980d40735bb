// Records come out on a rising time line, each once, whatever the clock does.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Damage } from '../../../src/core/log/damage.js';
import { type LogBreak, TimeLine } from '../../../src/core/log/time-line.js';

interface Run {
  readonly taken: { readonly timeS: number; readonly clockS: number; readonly line: number }[];
  readonly breaks: LogBreak[];
  readonly damage: Damage;
}

function run(clock: readonly number[], windowS = 5, gapS = 100): Run {
  const taken: Run['taken'] = [];
  const breaks: LogBreak[] = [];
  const damage = new Damage();
  const line = new TimeLine(
    { windowS, gapS },
    damage,
    (timeS, clockS, _s, _c, _p, number) => taken.push({ timeS, clockS, line: number }),
    (at) => breaks.push(at),
  );
  for (const [i, clockS] of clock.entries()) line.add(clockS, 0, i % 14, -1, i + 1);
  line.end();
  return { taken, breaks, damage };
}

const linesOf = ({ taken }: Run): number[] => taken.map((t) => t.line);

describe('a time line', () => {
  test('puts late records in their place', () => {
    const r = run([0, 2, 1, 3, 6, 4]);
    expect(linesOf(r)).toEqual([1, 3, 2, 4, 6, 5]);
    expect(r.damage.entries()).toMatchObject([{ kind: 'out of order', count: 2, firstLine: 3 }]);
  });

  test('leaves out a record from nowhere, early or late, and says so', () => {
    const r = run([0, 1, 2, 90_000, 3, -500, 4, 5, 6]);
    expect(r.taken.map((t) => t.timeS)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(r.damage.entries()).toMatchObject([{ kind: 'stray', count: 2, firstLine: 4 }]);
    expect(r.breaks).toEqual([]);
  });

  test('takes a jump ahead that lasts for a gap', () => {
    const r = run([0, 1, 2, 1000, 1001, 1002, 1003, 1004, 1005]);
    expect(r.taken.map((t) => t.timeS)).toEqual([0, 1, 2, 1000, 1001, 1002, 1003, 1004, 1005]);
    expect(r.breaks).toEqual([{ kind: 'gap', fromS: 2, toS: 1000, line: 4 }]);
  });

  test('goes on where the clock is set back, with the times that follow moved on', () => {
    const r = run([100, 101, 102, 40, 41, 42, 43, 44, 45]);
    expect(r.taken.map((t) => t.timeS)).toEqual([100, 101, 102, 102, 103, 104, 105, 106, 107]);
    expect(r.taken.map((t) => t.clockS)).toEqual([100, 101, 102, 40, 41, 42, 43, 44, 45]);
    expect(r.breaks).toEqual([{ kind: 'clock back', fromS: 102, toS: 40, line: 4 }]);
  });

  test('at the end, a jump ahead is a gap, and a few records set back are strays', () => {
    expect(run([0, 1, 2, 500, 501]).breaks).toHaveLength(1);
    const back = run([100, 101, 102, 40, 41]);
    expect(back.breaks).toEqual([]);
    expect(back.damage.count('stray')).toBe(2);
  });

  test('hands on every record once, in rising order, or tells of it', () => {
    const clocks = fc.array(fc.integer({ min: 0, max: 2000 }), { maxLength: 300 });
    fc.assert(
      fc.property(clocks, fc.integer({ min: 0, max: 50 }), (clock, windowS) => {
        const r = run(clock, windowS, 60);
        expect(r.taken.length + r.damage.count('stray')).toBe(clock.length);
        expect(new Set(linesOf(r)).size).toBe(r.taken.length);
        for (let i = 1; i < r.taken.length; i++)
          expect(r.taken[i]!.timeS).toBeGreaterThanOrEqual(r.taken[i - 1]!.timeS);
      }),
    );
  });

  test('any shuffling within the window comes out as it went in', () => {
    const gaps = fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 2, maxLength: 200 });
    fc.assert(
      fc.property(gaps, fc.infiniteStream(fc.integer({ min: 0, max: 9 })), (steps, delays) => {
        let t = 0;
        const rows = steps.map((s) => {
          t += s;
          return { t, seenAt: t + delays.next().value };
        });
        const arrival = [...rows].sort((a, b) => a.seenAt - b.seenAt);
        const r = run(
          arrival.map((x) => x.t),
          10,
          100,
        );
        expect(r.taken.map((x) => x.timeS)).toEqual(rows.map((x) => x.t));
      }),
    );
  });
});
