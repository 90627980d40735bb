/** How each figure is worked out: formula or procedure, its source, and the rows of the tables that feed it. */

import { listText } from '../../core/model/list-text.js';
import { lineRanges } from '../cost-document/place-text.js';
import { type FoldBlock, fold, left, tableOf } from '../document/blocks.js';
import type { ReportView } from './report-view.js';

interface Figure {
  readonly what: string;
  readonly how: string;
  readonly source: string;
  /** Tables that feed it. */
  readonly tables: readonly string[];
  readonly applies?: (view: ReportView) => boolean;
}

const ROUND = ['stations.csv', 'routes.csv', 'robot.csv', 'travel.csv'];
const WEEK = [...ROUND, 'shifts.csv', 'stops.csv', 'changeovers.csv', 'parts.csv'];

const figures: readonly Figure[] = [
  {
    what: 'Robot cycle, parts an hour',
    how: 'Of all repeating sequences of the robot’s moves, the one whose cycle makes most of the target. The cycle of a sequence is the least time P at which every move starts no earlier than the moves before it allow (start of b ≥ start of a + time − P × cycles between): the longest circuit of the sequence, time over cycles. Sequences are searched by branch and bound; proven means that the search came to its end.',
    source:
      'Least period as a maximum cycle ratio: F. Baccelli, G. Cohen, G. J. Olsder, J.-P. Quadrat, Synchronization and Linearity, 1992, chapter 2.',
    tables: ROUND,
  },
  {
    what: 'Bound on parts an hour',
    how: 'A linear program over rates that no order of the robot can exceed: its handling, travel and holding fill at most all of its time, and what is done at each station at most its capacity. Waiting for each other is not in it.',
    source: 'Linear programming relaxation: common practice.',
    tables: ROUND,
  },
  {
    what: 'Travel times',
    how: 'travel.csv first; else the distance s of the positions at speed v and acceleration a: s/v + v/a where s ≥ v²/a, else 2 √(s/a); else travel_s for every trip.',
    source: 'Trapezoidal speed profile: kinematics.',
    tables: ['travel.csv', 'stations.csv', 'robot.csv'],
  },
  {
    what: 'Critical path, gain per second saved',
    how: 'The moves on the critical path leave no slack. One second is taken off each element in turn and the robot cycle is solved again.',
    source: 'Critical circuit of a maximum cycle ratio: as above.',
    tables: ROUND,
  },
  {
    what: 'How many machines',
    how: 'The best robot cycle with one machine more each time. Cost of a part: robot, machines and people for an hour over the good parts of an hour. Margin an hour: contribution of the good parts less these costs.',
    source:
      'Cost by output: common practice. Closed forms beside it: A. Freivalds, B. Niebel, Methods, Standards and Work Design; J. A. Tompkins and others, Facilities Planning; W. R. Wright, Mechanical Engineering 58, 1936; H. Ashcroft, J. Royal Statistical Society B 12, 1950.',
    tables: [...ROUND, 'parts.csv', 'shifts.csv'],
  },
  {
    what: 'Good parts a shift and a week',
    how: 'The fixed sequence is run move by move through the pattern’s week until the week repeats. Each loss is the difference between two such runs, one cause added at a time, so the losses add up to the difference between maximum and good parts. Changeovers fall due evenly over the year and are placed in attended hours; their loss is the difference between the weeks with and without them.',
    source: 'Waterfall of losses: common practice. Paid breaks: 29 CFR 785.18 and 785.19.',
    tables: [...WEEK, 'costs.csv', 'signals.csv'],
    applies: ({ results }) => results.shifts !== null,
  },
  {
    what: 'Takt',
    how: 'Open time of the week over the demand of the week.',
    source: 'Common practice.',
    tables: ['shifts.csv', 'parts.csv'],
    applies: ({ results }) => results.performance.some((p) => p.takt.length > 0),
  },
  {
    what: 'Simulated parts, shares, losses',
    how: 'Independent runs of the cell with downtime, variation and people, after a warm-up; means over runs with intervals by Student’s t. Variants run on the same random numbers, so differences are paired run by run; where there are several pairs, a verdict needs the wider interval that lets all hold together (Bonferroni).',
    source:
      'Warm-up by the MSER-5 rule: K. P. White, M. J. Cobb, S. C. Spratt, Winter Simulation Conference, 2000. Intervals and paired differences: common practice of simulation.',
    tables: [...WEEK, 'variation.csv'],
  },
  {
    what: 'Mix of a week, worth of an hour',
    how: 'A linear program: parts through stations within the hours of stations, robot and people; the worth of an hour is found by solving again with one more.',
    source: 'Linear programming: common practice.',
    tables: WEEK,
    applies: ({ results }) => results.mix !== null,
  },
  {
    what: 'Plan of the jobs',
    how: 'A mixed-integer program over stretches of the week: what each machine is set up for, the changeovers, parts begun and parts ready, within the hours of machines, robot and people. Solved for fewest parts late, then fewest not made, then fewest set-up minutes, then early, each goal held while the next is sought; every plan is checked anew by code of its own.',
    source:
      'Mixed-integer programming, solved by HiGHS: Q. Huangfu, J. A. J. Hall, Mathematical Programming Computation 10, 2018. Goals one after another: common practice.',
    tables: [...WEEK, 'jobs.csv', 'setups.csv'],
    applies: ({ results }) => results.jobs !== null,
  },
  {
    what: 'Value of boxes over the harness',
    how: 'Cash flow of an option less that of moving the harness, each year divided by (1 + rate) as often as years have passed. Every figure of the case is in cost-case.html with its formula, file and line.',
    source:
      'D. G. Newnan, T. G. Eschenbach, J. P. Lavelle, Engineering Economic Analysis, 9th edition, 2004.',
    tables: ['costs.csv', 'changeovers.csv', 'signals.csv', 'parts.csv'],
    applies: ({ money }) => money !== null,
  },
  {
    what: 'Points, boxes, currents, cable losses',
    how: 'One point for each signal; boxes by inputs, outputs and supply current, whichever needs most; voltage drop 2 × length × current × resistance of a metre.',
    source: 'Resistance limits of IEC 60228; input levels of IEC 61131-2.',
    tables: ['signals.csv', 'costs.csv'],
    applies: ({ results }) => results.points !== null,
  },
];

export function methodBlock(view: ReportView): FoldBlock {
  const rows = rowsByTable(view);
  return fold('How each figure is worked out', [
    tableOf(
      'Figures, how they come about, and what feeds them',
      [left('figure'), left('how'), left('source, and the lines that feed it')],
      figures
        .filter((figure) => figure.applies?.(view) ?? true)
        .map((figure) => [
          figure.what,
          figure.how,
          `${figure.source} From ${listText(figure.tables.flatMap((file) => rows.get(file) ?? []))}.`,
        ]),
      { prose: true, wide: true, quoted: true },
    ),
  ]);
}

/** @returns by table such as `routes.csv 3-14`; tables that are not there are left out */
function rowsByTable({ facts }: ReportView): Map<string, string> {
  return new Map(
    facts.tables.map(({ file, rows }) => {
      const lines = rows.map(({ place }) => Number(place)).filter((line) => Number.isInteger(line));
      return [file, lines.length === rows.length && lines.length > 0 ? `${file} ${lineRanges(lines)}` : file];
    }),
  );
}
