// Charts of time and parts: as many marks as figures, each as long as its figure and where the scale has it.
import { describe, expect, test } from 'vitest';
import { cellDifferenceChart } from '../../../src/render/charts/difference-chart.js';
import { lossChart } from '../../../src/render/charts/loss-chart.js';
import { utilizationChart } from '../../../src/render/charts/utilization-chart.js';
import { weekChart } from '../../../src/render/charts/week-chart.js';
import { stored } from '../stored-results.js';
import { drawing, drawn, marks, numberOf, scaleBelow } from './drawings.js';

const { patterns } = stored('demo-shifts');
const night = patterns[2]!;

describe('utilization', () => {
  const schedule = stored('demo');
  const machines = schedule.stations.filter(({ kind }) => kind === 'machine');

  test('one bar a station and the robot, work as long as its share', () => {
    const svg = drawing(utilizationChart(schedule, null));
    expect(marks(svg, 'shares')).toHaveLength(machines.length + 1);
    const x = scaleBelow(svg);
    const work = marks(svg, 'work').slice(1); // the first is the key's
    machines.forEach((machine, k) => {
      expect(numberOf(work[k]!, 'x')).toBeCloseTo(x(0), 0);
      expect(numberOf(work[k]!, 'width')).toBeCloseTo(x(machine.utilizationPct) - x(0), 0);
    });
  });

  test('with a simulation there are two, its stopped share hatched', () => {
    const { result } = stored('demo-simulation').study;
    const chart = drawn(utilizationChart(schedule, result));
    expect(marks(drawing(chart), 'shares')).toHaveLength(2 * (machines.length + 1));
    const lathe = result.stations.find(({ station }) => station === 'lathe_1')!;
    const stopped = lathe.downWaitPct.mean + lathe.downRepairPct.mean;
    const row = chart.data!.rows.find(([name]) => name === 'lathe_1, simulated')!;
    const column = chart.data!.columns.findIndex(({ heading }) => heading === 'down');
    expect(Number(row[column])).toBeCloseTo(stopped, 1);
    expect(marks(drawing(chart), 'of-stop').length).toBeGreaterThanOrEqual(machines.length);
  });
});

describe('losses', () => {
  test.each(patterns.map((p) => [p.pattern, p] as const))(
    '%s: each bar runs from level to level',
    (_, pattern) => {
      const svg = drawing(lossChart(pattern));
      const x = scaleBelow(svg);
      const bars = [
        ...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="13" class="(loss|gain)"/g),
      ];
      let level = pattern.ceilingPerWeek.total!;
      const steps = pattern.losses.map(({ partsPerWeek }) => {
        const from = level;
        level -= partsPerWeek;
        return { from, to: level };
      });
      const drawnSteps = steps.filter(({ from, to }) => Math.abs(x(from) - x(to)) >= 0.05);
      expect(bars).toHaveLength(drawnSteps.length);
      drawnSteps.forEach(({ from, to }, k) => {
        expect(Number(bars[k]![1])).toBeCloseTo(Math.min(x(from), x(to)), 0);
        expect(Math.abs(Number(bars[k]![2]) - Math.max(1.2, Math.abs(x(from) - x(to))))).toBeLessThan(0.3);
        expect(bars[k]![3]).toBe(to < from ? 'loss' : 'gain');
      });
      const ends = marks(svg, 'mark').map((mark) => numberOf(mark, 'cx'));
      expect(ends[0]).toBeCloseTo(x(pattern.ceilingPerWeek.total!), 0);
      expect(ends[1]).toBeCloseTo(x(pattern.partsPerWeek.total!), 0);
    },
  );
});

describe('the week', () => {
  const svg = drawing(weekChart([night]));
  const x = scaleBelow(svg);
  const hoursOf = (kind: string, within: string): number =>
    [...within.matchAll(/<g class="span">.*?<\/g>/g)]
      .map(([group]) => marks(group, kind)[0])
      .filter((mark) => mark !== undefined)
      .reduce((sum, mark) => {
        const width =
          mark.attributes.width === undefined
            ? numberOf(mark, 'x2') - numberOf(mark, 'x1')
            : numberOf(mark, 'width');
        return sum + width / (x(1) - x(0));
      }, 0);

  test('has as many hours of each kind as the pattern', () => {
    const breaks = night.week.filter((s) => s.attended && !s.operator);
    const breakH = breaks.reduce((sum, s) => sum + s.endS - s.startS, 0) / 3600;
    expect(Math.abs(hoursOf('work', svg) + breakH - night.attendedH)).toBeLessThan(0.3);
    expect(Math.abs(hoursOf('of-robot', svg) - night.unattendedH)).toBeLessThan(0.3);
  });

  test('shows when racks ran out, and says when', () => {
    const stands = night.standstills.reduce((sum, s) => sum + s.untilS! - s.fromS, 0) / 3600;
    expect(Math.abs(hoursOf('box-wait', svg) - stands)).toBeLessThan(0.2);
    expect(svg).toContain('<title>rack at done_rack full, Mon 21:49 to Tue 06:00</title>');
  });

  test('shows when machines are changed over', () => {
    const h = night.changeovers.reduce((sum, c) => sum + c.standsUntilS - c.fromS, 0) / 3600;
    expect(Math.abs(hoursOf('box-stop', svg) - h)).toBeLessThan(0.1);
    expect(svg).toContain('<title>changeover of mill_2, Tue 12:09 to Tue 13:28</title>');
    expect(svg).toContain('>changeover</text>');
  });

  test('one panel a pattern, in which a standstill that nobody ends goes on to the end of the week', () => {
    const stuck = { ...night, standstills: [{ ...night.standstills[0]!, untilS: null, until: null }] };
    const chart = drawn(weekChart([...patterns, stuck]));
    expect(drawing(chart).match(/>hour of the day</g)).toHaveLength(4);
    expect(chart.svg).toContain('Mon 21:49 to the end: nobody comes');
    expect(chart.data!.rows).toHaveLength(4);
  });

  test('a standstill that began in the week before is shown at both ends of the week', () => {
    const s = night.standstills[0]!;
    const week = [{ startS: 0, endS: 7 * 86_400, open: true, attended: false, operator: false, shift: 0 }];
    const chart = weekChart([{ ...night, week, standstills: [{ ...s, fromS: -7200, untilS: 3600 }] }]);
    expect(hoursOf('box-wait', drawing(chart))).toBeCloseTo(3, 0);
  });
});

describe('differences', () => {
  const differences = [
    { a: 'x', b: 'y', partsPerShift: { mean: -4, ciLow: -9, ciHigh: 1 }, clear: false },
    { a: 'x', b: 'z', partsPerShift: { mean: 12, ciLow: 8, ciHigh: 16 }, clear: true },
    { a: 'y', b: 'z', partsPerShift: { mean: 16, ciLow: 12, ciHigh: 20 }, clear: true },
  ];

  test('intervals end where the scale has them; the dot of a clear one is full', () => {
    const svg = drawing(cellDifferenceChart({ differences }));
    const x = scaleBelow(svg);
    const lines = marks(svg, 'interval');
    const dots = [...marks(svg, 'mark'), ...marks(svg, 'full')];
    expect(lines).toHaveLength(3);
    differences.forEach(({ partsPerShift: { mean, ciLow, ciHigh } }, k) => {
      expect(numberOf(lines[k]!, 'x1')).toBeCloseTo(x(ciLow), 0);
      expect(numberOf(lines[k]!, 'x2')).toBeCloseTo(x(ciHigh), 0);
      expect(numberOf(dots[k]!, 'cx')).toBeCloseTo(x(mean), 0);
    });
    expect(marks(svg, 'full')).toHaveLength(2);
    expect(numberOf(marks(svg, 'thin')[0]!, 'x1')).toBeCloseTo(x(0), 0);
  });

  test.each([
    [differences.slice(1, 2), 'x makes 12.0 more good parts a shift than z'],
    [differences.slice(0, 1), 'No clear difference between x and y in good parts a shift'],
    [differences, '2 of 3 pairs differ clearly; y makes 16.0 more good parts a shift than z'],
    [
      [differences[0]!, { ...differences[0]!, b: 'z' }],
      'None of the 2 pairs differs clearly in good parts a shift',
    ],
  ])('the title says what they show', (some, title) => {
    expect(drawn(cellDifferenceChart({ differences: some })).title).toBe(title);
  });
});
