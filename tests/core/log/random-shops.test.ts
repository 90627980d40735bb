// Logs of shops drawn at random, against what the simulation itself has counted: every second of robot and stations is
// found again, and nothing is called missing that is there.
import { describe, expect, test } from 'vitest';
import {
  HANDLING,
  HOLDING,
  PROCESSING,
  SLOT_STATES,
  TRAVEL_EMPTY,
  TRAVEL_LOADED,
} from '../../../src/core/floor/slot-state.js';
import { writeSimulatedLog } from '../../../src/core/log/simulated-log.js';
import { preparedJob } from '../../../src/core/simulate/simulate-cell.js';
import { resolveOptions } from '../../../src/core/simulate/simulation-options.js';
import {
  choiceShop,
  everythingShop,
  fixtureShop,
  gaugeShop,
  heldShop,
  mixedShop,
  roomyShop,
} from '../../support/random-shops.js';
import { readLog } from '../../support/simulated-log.js';
import { atSize } from '../../support/size.js';

/** In the quick run two grippers, which do all that one does. */
const SHOPS = [
  ...atSize([2], [1, 2]).flatMap((hands) => [
    ['alternatives', choiceShop(11, hands as 1 | 2, 2).cell, hands] as const,
    ['stations with room for several', roomyShop(12, hands as 1 | 2, 2).cell, hands] as const,
    ['fixtures', fixtureShop(13, hands as 1 | 2, 2).cell, hands] as const,
    ['held steps', heldShop(14, hands as 1 | 2, 2).cell, hands] as const,
    ['a gauge', gaugeShop(15, hands as 1 | 2, 3).cell, hands] as const,
    ['two parts', mixedShop(16, hands as 1 | 2, [1, 2]).cell, hands] as const,
  ]),
  ['everything', everythingShop(17).cell, 0] as const,
];

const HOURS = atSize(20, 40);
/** Seconds that the round under way at the end may hold. */
const TAIL_S = 1000;

describe.each(SHOPS)('%s (hands %3$s)', (_name, cell) => {
  const { job } = preparedJob(cell, resolveOptions({ hours: HOURS, warmupH: 0, program: 'first' }));
  let text = '';
  const { run, records } = writeSimulatedLog(job, 0, null, (piece) => {
    text += piece;
  });
  const { result } = readLog(text, cell, { windowS: 0, bounceS: 0 });

  test('nothing is out of order, missing or lost', () => {
    expect(result.records).toBe(records);
    expect(result.used).toBe(records);
    expect(result.damage.filter((d) => d.kind !== 'cut')).toEqual([]);
  });

  test('parts, robot and stations have the simulation’s seconds', () => {
    const made = run.good.reduce((a, b) => a + b, 0) + run.scrap.reduce((a, b) => a + b, 0);
    expect(made).toBeGreaterThan(100);
    expect(result.parts.total).toBe(made);
    const robot = result.robot!;
    const near = (found: number, counted: number): void => {
      expect(Math.abs(found - counted)).toBeLessThan(TAIL_S);
    };
    near(robot.travelEmptyS!, run.robotS[TRAVEL_EMPTY]!);
    near(robot.travelLoadedS!, run.robotS[TRAVEL_LOADED]!);
    near(robot.heldS, run.robotS[HOLDING]!);
    near(robot.handlingS, run.robotS[HANDLING]!);
    for (const [i, { name, kind }] of cell.stations.entries()) {
      const found = result.stations.find((s) => s.station === name);
      if (kind === 'held' || kind === 'infeed' || kind === 'outfeed') continue;
      const batch = Math.max(
        1,
        ...cell.routes.flatMap((r) =>
          r.steps.filter((s) => s.stations.includes(name)).map((s) => s.partsPerCycle),
        ),
      );
      if (batch === 1) near(found?.times.cycle?.total ?? 0, run.stationS[i * SLOT_STATES + PROCESSING]!);
    }
  });
});
