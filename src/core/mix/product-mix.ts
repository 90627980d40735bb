/**
 * Which parts on which machines in which shift pattern: for each pattern the mix that meets the demand and earns most,
 * what is scarce, and what one more hour of it is worth (found by solving again with an hour more).
 */

import { askedPerWeek, isAsked } from '../calendar/asked-amounts.js';
import { patternNames, type WeekSegment, weekCalendar } from '../calendar/week-calendar.js';
import type { MixedAnswer, MixedSolver } from '../lp/mixed-solver.js';
import { add, valueAt } from '../lp/terms.js';
import { attendedOnlyNote } from '../model/attended-only.js';
import type { Cell } from '../model/cell.js';
import { runningCostPerH } from '../model/contribution.js';
import { currencyOf } from '../model/cost-value.js';
import { listText } from '../model/list-text.js';
import { amountOf, nameText } from '../model/name-text.js';
import { labourCostPerWeek } from '../shifts/labour-cost.js';
import { operatorHours } from '../shifts/operator-hours.js';
import {
  goodShare,
  type MixDemand,
  type MixHours,
  type MixInputs,
  type MixProgram,
  mixProgram,
  ROBOT,
} from './mix-program.js';

/** Programs of the mix have no whole numbers, so nothing is branched on. */
const ROOT_ONLY = 1;

export const MIX_DEMANDS = ['all', 'least', 'most'] as const;
export type MixDemandKind = (typeof MIX_DEMANDS)[number];

export interface MixOptions {
  /** Hours a week where the cell has no shifts, default 40. */
  readonly hoursPerWeek?: number;
  /**
   * `all` (default): the demand is to be met, and no more than it is sold; `least`: it is to be met, and what is made
   * beyond it is sold too; `most`: it need not be met, and no more than it is sold.
   */
  readonly demand?: MixDemandKind;
}

export interface MixPart {
  readonly part: string;
  readonly goodPerWeek: number;
  /** null = none stated. */
  readonly demandPerWeek: number | null;
}

export interface MixUse {
  readonly station: string;
  readonly part: string;
  readonly step: number;
  readonly partsPerWeek: number;
}

export interface MixResource {
  /** A station, `robot` or `operators`. */
  readonly resource: string;
  readonly usedH: number;
  readonly availableH: number;
  readonly usedPct: number;
  /** What one more hour a week brings, in the value's unit; 0 where there are hours to spare. */
  readonly worthPerH: number;
}

export interface PatternMix {
  /** null = no shifts are given. */
  readonly pattern: string | null;
  /** `short`: not all of the demand can be met; the plan then meets the same share of each. */
  readonly status: 'met' | 'short' | 'unsure';
  readonly hoursPerWeek: number;
  /** Share of every demand that can be met, 0 to 100 and more; null without a demand. */
  readonly demandMetPct: number | null;
  readonly parts: readonly MixPart[];
  readonly uses: readonly MixUse[];
  readonly resources: readonly MixResource[];
  /** Contribution of the good parts a week, or the parts where no contribution is given. */
  readonly valuePerWeek: number;
  /** Value less labour and running costs; null where no contribution is given. */
  readonly earnedPerWeek: number | null;
  readonly labourPerWeek: number;
}

export interface ProductMix {
  readonly valued: 'contribution' | 'parts';
  readonly patterns: readonly PatternMix[];
  /** The pattern that meets the demand and earns most (with no contribution: at the least labour); null = none is sure. */
  readonly best: string | null;
  readonly recommendation: string;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/**
 * @param solve a solver that ends with a sure answer also where hours are just used up
 * @param onProgress called after each pattern
 */
export function productMix(
  cell: Cell,
  solve: MixedSolver,
  options: MixOptions = {},
  onProgress: (done: number, planned: number) => void = () => undefined,
): ProductMix {
  const priced = cell.routes.every((r) => cell.parts.find((p) => p.part === r.part)?.contribution != null);
  const names = patternNames(cell.shifts);
  const weeks = names.map((name) => weekOf(cell, name));
  const all = names.length > 0 ? weeks : [plainWeek(options.hoursPerWeek ?? 40)];
  const patterns = all.map((week, k) => {
    const mix = patternMix(cell, week, priced, options, solve);
    onProgress(k + 1, all.length);
    return mix;
  });
  const best = bestOf(patterns, priced);
  return {
    valued: priced ? 'contribution' : 'parts',
    patterns,
    best: best?.pattern ?? null,
    recommendation: recommend(best, priced ? currencyOf(cell) : null),
    assumptions: assumptionsOf(cell, options, priced, names.length > 0),
    warnings: patterns.flatMap((p) =>
      p.status === 'unsure' ? [`No sure plan was found for ${p.pattern ?? 'the week'}.`] : [],
    ),
  };
}

interface Week {
  readonly pattern: string | null;
  readonly hours: MixHours;
  /** Shifts a week, for the demand per shift. */
  readonly shifts: number;
  readonly labour: number;
}

function weekOf(cell: Cell, pattern: string): Week {
  const week = weekCalendar(cell.shifts, pattern);
  const rows = cell.shifts.filter((s) => s.pattern === pattern);
  return {
    pattern,
    hours: {
      openH: week.hoursPerWeek,
      attendedH: week.attendedH,
      operatorH: operatorHours(cell.shifts, week),
      leavings: week.segments.filter(
        (s, i) => s.attended && isAlone(week.segments[(i + 1) % week.segments.length]!),
      ).length,
    },
    shifts: week.shifts.length,
    labour: labourCostPerWeek(rows),
  };
}

function isAlone({ open, attended }: WeekSegment): boolean {
  return open && !attended;
}

function plainWeek(hours: number): Week {
  if (!(hours > 0 && hours <= 168)) throw new RangeError(`a week has up to 168 hours, found ${hours}`);
  return {
    pattern: null,
    hours: { openH: hours, attendedH: hours, operatorH: null, leavings: null },
    shifts: hours / 8,
    labour: 0,
  };
}

function patternMix(
  cell: Cell,
  week: Week,
  priced: boolean,
  options: MixOptions,
  solve: MixedSolver,
): PatternMix {
  const demand = demandOf(cell, week, options.demand ?? 'all');
  const value = (part: string): number =>
    priced ? cell.parts.find((p) => p.part === part)!.contribution! : 1;
  const inputs: MixInputs = { cell, hours: week.hours, demand, value, goal: 'value' };
  const wanted = [...demand.values()].some((d) => (d.least ?? 0) > 0);
  const share = wanted ? solve(mixProgram({ ...inputs, goal: 'share' }).program, ROOT_ONLY) : null;
  const met = share === null ? null : share.status === 'optimal' ? share.value : Number.NaN;
  const isShort = met !== null && met < 1 - 1e-9;
  const planned = isShort ? scaledDown(inputs, met) : inputs;
  const made = mixProgram(planned);
  const answer = Number.isNaN(met) ? null : bestPlan(made, solve);
  if (answer?.status !== 'optimal') return unsure(week);
  return {
    pattern: week.pattern,
    status: isShort ? 'short' : 'met',
    hoursPerWeek: week.hours.openH,
    demandMetPct: met === null ? null : 100 * met,
    parts: partsOf(cell, made, answer.at, demand),
    uses: usesOf(cell, made, answer.at),
    resources: resourcesOf(planned, made, answer, solve),
    valuePerWeek: answer.value,
    earnedPerWeek: priced ? answer.value - week.labour - runningCostPerH(cell) * week.hours.openH : null,
    labourPerWeek: week.labour,
  };
}

/** What an hour of the robot's spare time counts for, against parts: it decides between plans that are worth the same. */
const SPARE_HOUR = 1e-4;

/** The plan that is worth most; of those, one in which the robot does not drive about for nothing. */
function bestPlan({ program, resources }: MixProgram, solve: MixedSolver): MixedAnswer {
  const objective = { ...program.objective };
  const robot = resources.find(({ name }) => name === ROBOT);
  for (const [name, h] of Object.entries(robot?.terms ?? {})) add(objective, name, -SPARE_HOUR * h);
  const answer = solve({ ...program, objective }, ROOT_ONLY);
  return answer.status === 'optimal' ? { ...answer, value: valueAt(program.objective, answer.at) } : answer;
}

/** Where the demand cannot be met: the same share of each, a hair less so that rounding does not make it impossible. */
function scaledDown(inputs: MixInputs, share: number): MixInputs {
  const demand = new Map(
    [...inputs.demand].map(([part, d]) => [
      part,
      { ...d, least: d.least === null ? null : d.least * share * (1 - 1e-9) },
    ]),
  );
  return { ...inputs, demand };
}

function demandOf(cell: Cell, week: Week, kind: MixDemandKind): Map<string, MixDemand> {
  return new Map(
    cell.parts.flatMap((row) => {
      const amount = askedPerWeek(row, week.shifts);
      if (amount === null) return [];
      return [
        [
          row.part,
          { least: kind === 'most' ? null : amount, most: kind === 'least' ? null : amount },
        ] as const,
      ];
    }),
  );
}

function unsure({ pattern, hours, labour }: Week): PatternMix {
  return {
    pattern,
    status: 'unsure',
    hoursPerWeek: hours.openH,
    demandMetPct: null,
    parts: [],
    uses: [],
    resources: [],
    valuePerWeek: 0,
    earnedPerWeek: null,
    labourPerWeek: labour,
  };
}

function partsOf(
  cell: Cell,
  { legs }: MixProgram,
  at: Readonly<Record<string, number>>,
  demand: ReadonlyMap<string, MixDemand>,
): MixPart[] {
  return cell.routes.map(({ part }, r) => {
    const starts = legs.reduce(
      (sum, leg) => sum + (leg.route === r && leg.fromStep === 0 ? at[leg.name]! : 0),
      0,
    );
    const d = demand.get(part);
    return {
      part,
      goodPerWeek: clean(starts * goodShare(cell, part)),
      demandPerWeek: d?.least ?? d?.most ?? null,
    };
  });
}

function usesOf(cell: Cell, { legs }: MixProgram, at: Readonly<Record<string, number>>): MixUse[] {
  return cell.routes.flatMap((route, r) =>
    route.steps.slice(1, -1).flatMap((step, i) =>
      step.stations.map((station) => ({
        station,
        part: route.part,
        step: step.step,
        partsPerWeek: clean(
          legs.reduce(
            (sum, leg) =>
              sum + (leg.route === r && leg.toStep === i + 1 && leg.to === station ? at[leg.name]! : 0),
            0,
          ),
        ),
      })),
    ),
  );
}

function clean(value: number): number {
  return Math.abs(value) < 1e-9 ? 0 : value;
}

function resourcesOf(
  inputs: MixInputs,
  made: MixProgram,
  answer: MixedAnswer & { status: 'optimal' | 'limit' },
  solve: MixedSolver,
): MixResource[] {
  return made.resources.map((row) => {
    const usedH = valueAt(row.terms, answer.at);
    const availableH = row.most!;
    const isScarce = usedH > availableH * (1 - 1e-6) - 1e-9;
    return {
      resource: row.name,
      usedH,
      availableH,
      usedPct: availableH > 0 ? (100 * usedH) / availableH : 0,
      worthPerH: isScarce ? worthOf(inputs, row.name, answer.value, solve) : 0,
    };
  });
}

/** What the plan gains with one hour more of a resource. */
function worthOf(inputs: MixInputs, resource: string, value: number, solve: MixedSolver): number {
  const more = solve(mixProgram({ ...inputs, extraH: new Map([[resource, 1]]) }).program, ROOT_ONLY);
  return more.status === 'optimal' ? Math.max(0, clean(more.value - value)) : 0;
}

function bestOf(patterns: readonly PatternMix[], priced: boolean): PatternMix | null {
  const sure = patterns.filter((p) => p.status !== 'unsure');
  const met = sure.filter((p) => p.status === 'met');
  const worth = (p: PatternMix): number => {
    if (met.length === 0) return p.demandMetPct ?? 0;
    if (priced) return p.earnedPerWeek!;
    return p.demandMetPct === null ? p.valuePerWeek : -p.labourPerWeek;
  };
  return (met.length > 0 ? met : sure).reduce<PatternMix | null>(
    (a, b) => (a === null || worth(b) > worth(a) ? b : a),
    null,
  );
}

function wholeText(amount: number): string {
  return amount.toLocaleString('en', { maximumFractionDigits: 0 });
}

/** @param currency null where the parts have no contribution */
function recommend(best: PatternMix | null, currency: string | null): string {
  if (best === null) return 'No sure plan was found.';
  const name = best.pattern === null ? 'The week' : `The pattern ${best.pattern}`;
  const made = best.parts.flatMap(({ part, goodPerWeek }) =>
    goodPerWeek < 0.5 ? [] : [amountOf(wholeText(goodPerWeek), part)],
  );
  const none = best.parts.filter(({ goodPerWeek }) => goodPerWeek < 0.5).map(({ part }) => nameText(part));
  const makes = `${listText(made)} good parts a week${none.length === 0 ? '' : ` (none of ${listText(none)})`}`;
  const unit = currency === null ? ' parts' : currency === '' ? '' : ` ${currency}`;
  const earns =
    currency === null
      ? ''
      : `, margin ${wholeText(best.earnedPerWeek!)}${unit} a week after labour and running costs`;
  const scarce = best.resources.filter((r) => r.worthPerH > 0).sort((a, b) => b.worthPerH - a.worthPerH);
  const worth =
    scarce.length === 0
      ? 'No bottleneck: the demand is the limit.'
      : `Bottlenecks, value of one extra hour a week: ${scarce.map((r) => `${nameText(r.resource)} ${r.worthPerH.toFixed(1)}${unit}`).join(', ')}.`;
  const short =
    best.status === 'short' ? ` Only ${best.demandMetPct!.toFixed(1)}% of the demand can be met.` : '';
  return `Upper limit: ${name.charAt(0).toLowerCase()}${name.slice(1)} makes ${makes}${earns}.${short} ${worth}`;
}

function assumptionsOf(cell: Cell, options: MixOptions, priced: boolean, hasShifts: boolean): string[] {
  const demand = cell.parts.some(isAsked)
    ? [
        {
          all: 'The demand is to be met, and no more than it is sold.',
          least: 'The demand is to be met; what is made beyond it is sold too.',
          most: 'No more than the demand is sold; it need not be met.',
        }[options.demand ?? 'all'],
      ]
    : [];
  return [
    'Upper limit: interference, empty racks and start-up are not included. Check with `schedule` and `simulate`.',
    ...(hasShifts
      ? [
          'A part that a machine finishes after the end of a shift counts only as far as it was worked before.',
        ]
      : []),
    'Planned stops by parts, random stops and changeovers take hours of machines and of operators; at each changeover the harness is moved, where costs.csv says what that takes.',
    priced
      ? 'Good parts are valued by their contribution.'
      : 'Not every part has a contribution, so the plan makes the most parts.',
    ...(hasShifts
      ? []
      : [
          `No shifts are given: the week has ${options.hoursPerWeek ?? 40} hours, and people are not counted.`,
        ]),
    ...demand,
    ...(hasShifts && cell.parts.some((p) => p.unattended === false)
      ? [
          'Parts that start only with people there (unattended) have, at their first station, the hours of people and what it holds when they leave.',
        ]
      : []),
    ...attendedOnlyNote({ parts: [], stops: cell.stops }),
  ];
}
