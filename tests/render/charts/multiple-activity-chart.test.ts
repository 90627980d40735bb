// The multiple-activity chart: every move of one robot cycle is there once for each reader, where the schedule has it.
import { describe, expect, test } from 'vitest';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { multipleActivityChart } from '../../../src/render/charts/multiple-activity-chart.js';
import { utilizationChart } from '../../../src/render/charts/utilization-chart.js';
import { movesOfRound } from '../../../src/render/robot-round.js';
import { stationTimeline } from '../../../src/render/station-timeline.js';
import { STORED_SCHEDULES, stored } from '../stored-results.js';
import { drawing, expectSound, marks, numberOf } from './drawings.js';

describe.each(STORED_SCHEDULES)('%s', (name) => {
  const schedule = stored(name);
  const chart = multipleActivityChart(schedule);
  const moves = movesOfRound(schedule);

  test.each(['wide', 'narrow'] as const)('%s: one stop of the keyboard for each move of a round', (kind) => {
    const groups = marks(drawing(chart, kind), 'move');
    const stops = groups.filter(({ attributes }) => attributes.tabindex === '0');
    // A move that runs over the end of the first round's own drawing goes on in the next.
    const labels = [...new Set(stops.map(({ attributes }) => attributes['aria-label']))];
    expect(labels).toHaveLength(moves.length);
    for (const [k, move] of moves.entries()) expect(labels[k]).toContain(move.text);
    for (const { attributes } of groups)
      expect(attributes).toMatchObject({
        role: 'img',
        'aria-label': expect.stringMatching(/ s, [\d.,]+ s$/),
      });
  });

  test("the lengths drawn are the schedule's seconds", () => {
    const svg = drawing(chart);
    const [from, to] = timeAxis(svg);
    const perS = (to.x - from.x) / (to.timeS - from.timeS);
    const seconds = (of: string) =>
      marks(svg, 'move')
        .map((_, k) => moveText(svg, k))
        .flatMap((text) => marks(text, of))
        .reduce((sum, mark) => sum + numberOf(mark, 'width'), 0) / perS;
    const work = schedule.stations
      .filter(({ kind }) => kind === 'machine' || kind === 'bench')
      .flatMap(({ station }) => stationTimeline(schedule, station))
      .filter(({ state }) => state === 'working')
      .reduce((sum, { startS, endS }) => sum + endS - startS, 0);
    // Tenths of a pixel on each of some dozens of bars.
    expect(Math.abs(seconds('work') - work) * perS).toBeLessThan(4);
  });

  test('is sound, and its table has every move and stretch of a round', () => {
    expectSound(chart);
    const stretches = schedule.stations
      .filter(({ kind }) => kind !== 'infeed' && kind !== 'outfeed')
      .flatMap(({ station }) => stationTimeline(schedule, station));
    expect(chart.data!.rows).toHaveLength(moves.length + stretches.length);
  });

  test('an svg whose parts take the focus is no image itself', () => {
    expect(drawing(chart)).toMatch(/^<svg [^>]*role="group"/);
  });
});

test('more moves than a line holds: the cycle goes on in the next line, and the end says that it repeats', () => {
  const chart = multipleActivityChart(stored('demo'));
  const lines = (kind: 'wide' | 'narrow') => drawing(chart, kind).match(/>seconds</g)!.length;
  expect(lines('wide')).toBeLessThan(lines('narrow'));
  expect(drawing(chart).match(/>cycle repeats</g)).toHaveLength(1);
});

test('work names its part where there is room', () => {
  const schedule = stored('wash-line');
  const parts = Object.keys(schedule.partsPerPeriod);
  const named = [...drawing(multipleActivityChart(schedule)).matchAll(/class="part"[^>]*>([^<]+)</g)];
  expect(named.length).toBeGreaterThan(0);
  for (const [, part] of named) expect(parts).toContain(part);
});

test('a name is text, not markup, and a long one is cut with all of it in its title', () => {
  const long = `<script>alert("1")</script>${'x'.repeat(37)}`;
  const text = JSON.stringify(stored('wash-line')).replaceAll('"lathe"', JSON.stringify(long));
  const chart = multipleActivityChart(JSON.parse(text) as ScheduleFound);
  expectSound(chart);
  expect(chart.svg).toContain('…');
  expect(chart.svg).toContain(
    `<title>&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;${'x'.repeat(37)}</title>`,
  );
});

interface Tick {
  readonly x: number;
  readonly timeS: number;
}

/** The first and the last labelled time of the first band. */
function timeAxis(svg: string): [Tick, Tick] {
  const ticks = [
    ...svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)" class="tick" text-anchor="middle">([\d,]+)</g),
  ].map((match) => ({ x: Number(match[1]), y: match[2], timeS: Number(match[3]!.replaceAll(',', '')) }));
  const axis = ticks.filter(({ timeS }) => timeS === 0)[0]!;
  const row = ticks.filter(({ y }) => y === axis.y);
  return [axis, row.at(-1)!];
}

function moveText(svg: string, index: number): string {
  return svg.split('<g class="move"')[index + 1]!.split('</g>')[0]!;
}

test('of very many stations the first are drawn, and all are in the table', () => {
  const demo = stored('demo');
  const one = demo.stations.find(({ station }) => station === 'mill_2')!;
  const more = Array.from({ length: 30 }, (_, k) => ({ ...one, station: `spare_${k}` }));
  const chart = multipleActivityChart({ ...demo, stations: [...demo.stations, ...more] });
  expect(drawing(chart)).toContain('>spare_19<');
  expect(drawing(chart)).not.toContain('>spare_20<');
  expect(chart.note).toContain('The first 24 stations are drawn; all 34 are in the table.');
});

test('what lies in a buffer is stored, not waiting for the robot', () => {
  const text = JSON.stringify(stored('robot-bound'));
  const schedule = JSON.parse(
    text.replaceAll(/("station":"wash","kind":)"\w+"/g, '$1"buffer"'),
  ) as ScheduleFound;
  expect(schedule.stations.some(({ kind }) => kind === 'buffer')).toBe(true);
  const activity = multipleActivityChart(schedule);
  expect(activity.svg).toMatch(/wash: \w+ is stored/);
  expect(activity.svg).not.toMatch(/wash: \w+ is done, waiting/);
  const { title, data } = utilizationChart(schedule, null);
  expect(title).not.toContain('wash waits');
  expect(data!.columns.map(({ heading }) => heading)).toContain('stored');
});
