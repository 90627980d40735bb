/** The causes of loss as switches: which a job has, in which order, and what each switch takes out. */
import { describe, expect, it } from 'vitest';
import type { FloorJob } from '../../../src/core/floor/floor-job.js';
import { lossSwitches, withoutGains } from '../../../src/core/floor/loss-switches.js';
import type { Cell, Element, PlannedStop, Variation } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const vary = (element: Element, distribution: Variation['distribution'] = 'exponential'): Variation => ({
  ...{ station: '*', element, distribution, parameters: [5] },
});
const stop = (operator: boolean): PlannedStop => ({
  ...{ station: 'mill', name: 'tool', everyParts: 9, everyH: null, minutes: 1, operator },
});
const part = (yieldPct: number) => ({
  part: 'cap',
  contribution: null,
  perShift: null,
  ratio: null,
  yieldPct,
});
const DAY = { startS: 0, endS: 50, attended: true, operators: 2 };
const BREAK = { startS: 50, endS: 60, attended: true, operators: 0 };
const NIGHT = { startS: 60, endS: 90, attended: false };
const WATCHED = { startS: 90, endS: 99, attended: false, operators: 1 };

interface Shop {
  readonly rack?: number | null;
  readonly mtbfH?: number | null;
  readonly cell?: Partial<Cell>;
  readonly job?: Partial<FloorJob>;
}

function job({ rack = null, mtbfH = null, cell = {}, job: more = {} }: Shop = {}): FloorJob {
  return {
    cell: cellOf({
      stations: [
        station('rack', 'infeed', { capacityParts: rack }),
        station('mill', 'machine', { mtbfH, mttrMin: mtbfH === null ? null : 4 }),
        station('good', 'outfeed'),
      ],
      routes: [
        { part: 'cap', steps: [step(1, ['rack']), step(2, ['mill'], { cycleS: 9 }), step(3, ['good'])] },
      ],
      robot: { ...ROBOT, travelS: 1 },
      parts: [part(100)],
      ...cell,
    }),
    ...{
      program: 'first',
      order: null,
      openSpans: null,
      operators: 1,
      seed: 1,
      changeovers: null,
      runsOut: false,
    },
    ...more,
  };
}

const causes = (of: Shop) => lossSwitches(job(of)).map((s) => s.cause);
const slow = { robot: { ...ROBOT, travelS: 1, attendedSpeedPct: 50 } };

describe('a job has', () => {
  it.each<[string, Shop, string[]]>([
    ['no losses without a cause', {}, []],
    [
      'a reduced speed where somebody attends',
      { cell: slow, job: { openSpans: [DAY] } },
      ['reduced speed in attended hours'],
    ],
    ['none where nobody does', { cell: slow, job: { openSpans: [NIGHT] } }, []],
    ['none without hours', { cell: slow }, []],
    ['variation of cycles', { cell: { variation: [vary('cycle')] } }, ['variation of times']],
    ['of loads, unloads and travel', { cell: { variation: [vary('load')] } }, ['variation of times']],
    ['of unloads', { cell: { variation: [vary('unload')] } }, ['variation of times']],
    ['of travel', { cell: { variation: [vary('travel')] } }, ['variation of times']],
    ['none of a constant time', { cell: { variation: [vary('cycle', 'constant')] } }, []],
    ['none of a repair without breakdowns', { cell: { variation: [vary('repair')] } }, []],
    ['random stops', { mtbfH: 9 }, ['random stops and their repair']],
    ['planned stops', { cell: { stops: [stop(false)] } }, ['planned stops']],
    [
      'a response to calls',
      { cell: { stops: [stop(true)], variation: [vary('response')] } },
      ['planned stops', "operator's response time"],
    ],
    [
      'to a breakdown',
      { mtbfH: 9, cell: { variation: [vary('response')] } },
      ['random stops and their repair', "operator's response time"],
    ],
    [
      'no response where nobody is called',
      { cell: { stops: [stop(false)], variation: [vary('response')] } },
      ['planned stops'],
    ],
    ['racks', { rack: 9 }, ['racks empty or full']],
    // Without their limit racks call nobody, whoever is there.
    ['racks at night', { rack: 9, job: { openSpans: [DAY, NIGHT] } }, ['racks empty or full']],
    [
      'stops at night',
      { cell: { stops: [stop(true)] }, job: { openSpans: [DAY, NIGHT] } },
      ['planned stops', 'no operator in unattended hours'],
    ],
    [
      'breakdowns at night',
      { mtbfH: 9, job: { openSpans: [NIGHT] } },
      ['random stops and their repair', 'no operator in unattended hours'],
    ],
    ['nights with somebody there', { rack: 9, job: { openSpans: [DAY, WATCHED] } }, ['racks empty or full']],
    ['nights that nobody is called in', { job: { openSpans: [DAY, BREAK, NIGHT] } }, []],
    ['breaks', { rack: 9, job: { openSpans: [DAY, BREAK] } }, ['racks empty or full', 'operator in a break']],
    ['scrap', { cell: { parts: [part(97)] } }, ['scrap']],
    ['changeovers', { job: { changeovers: { weeks: 1, rows: [] } } }, ['changeovers']],
  ])('%s', (_what, of, found) => {
    expect(causes(of)).toEqual(found);
  });

  it('all of them in the order in which they are switched on', () => {
    const all: Shop = {
      ...{ rack: 9, mtbfH: 9 },
      cell: { ...slow, parts: [part(97)], stops: [stop(true)], variation: [vary('cycle'), vary('response')] },
      job: { openSpans: [DAY, BREAK, NIGHT], changeovers: { weeks: 1, rows: [] } },
    };
    const steps = lossSwitches(job(all));
    expect(steps.map((s) => s.cause)).toEqual([
      'reduced speed in attended hours',
      'variation of times',
      'random stops and their repair',
      'planned stops',
      "operator's response time",
      'no operator in unattended hours',
      'racks empty or full',
      'operator in a break',
      'changeovers',
      'scrap',
    ]);
    const without = (cause: string) => steps.find((s) => s.cause === cause)!.without;
    // Each is the job without that cause and those after it.
    expect(without('scrap').cell.parts).toEqual([part(100)]);
    expect(without('scrap').changeovers).not.toBeNull();
    expect(without('changeovers').changeovers).toBeNull();
    expect(without('operator in a break').openSpans).toEqual([DAY, { ...BREAK, operators: 2 }, NIGHT]);
    expect(without('racks empty or full').cell.stations.map((s) => s.capacityParts)).toEqual([null, 1, null]);
    expect(without('operator in a break').cell.stations[0].capacityParts).toBe(9);
    expect(without('no operator in unattended hours').openSpans).toEqual([
      DAY,
      { ...BREAK, operators: 2 },
      { ...NIGHT, operators: 2 },
    ]);
    expect(without("operator's response time").cell.variation.map((v) => v.element)).toEqual(['cycle']);
    expect(without('planned stops').cell.stops).toEqual([]);
    expect(without("operator's response time").cell.stops).toHaveLength(1);
    expect(without('random stops and their repair').cell.stations.map((s) => [s.mtbfH, s.mttrMin])).toEqual([
      [null, null],
      [null, null],
      [null, null],
    ]);
    expect(without('planned stops').cell.stations[1]).toMatchObject({ mtbfH: 9, mttrMin: 4 });
    expect(without('variation of times').cell.variation).toEqual([]);
    const bare = without('reduced speed in attended hours');
    expect([
      bare.cell.robot.attendedSpeedPct,
      without('variation of times').cell.robot.attendedSpeedPct,
    ]).toEqual([100, 50]);
    expect(bare.program).toBe('first');
  });

  it('where nobody is ever there, one is put there for a night', () => {
    const [, night] = lossSwitches(job({ mtbfH: 9, job: { openSpans: [NIGHT] } }));
    expect(night.without.openSpans).toEqual([{ ...NIGHT, operators: 1 }]);
  });
});

describe('a cause that saves more than it costs', () => {
  const joined = (...parts: readonly number[]) =>
    withoutGains(
      parts.map((n, i) => ({ cause: 'abcdef'[i], n })),
      (loss) => loss.n,
      (a, b) => ({ n: a.n + b.n }),
    ).map((loss) => `${loss.cause} ${loss.n}`);

  it('is taken with the neighbour that costs more, of equal ones the one before', () => {
    expect(joined(5, 3, 1)).toEqual(['a 5', 'b 3', 'c 1']);
    expect(joined(5, -2, 1)).toEqual(['a, with b 3', 'c 1']);
    expect(joined(1, -2, 5)).toEqual(['a 1', 'b, with c 3']);
    expect(joined(4, -2, 4)).toEqual(['a, with b 2', 'c 4']);
    expect(joined(-2, 5, 9)).toEqual(['a, with b 3', 'c 9']);
    expect(joined(9, 5, -2)).toEqual(['a 9', 'b, with c 3']);
  });

  it('until none is left; one that is left alone below nothing is named a gain', () => {
    expect(joined(1, -3, 1, 4)).toEqual(['a, with b, with c, with d 3']);
    expect(joined(-2)).toEqual(['gain: a -2']);
    expect(joined(0, -1e-10, 0)).toEqual(['a 0', 'b -1e-10', 'c 0']);
    expect(joined(-1, -1)).toEqual(['gain: a, with b -2']);
    expect(joined(2, -9, 3)).toEqual(['gain: a, with b, with c -4']);
  });
});
