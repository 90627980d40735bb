/** What to look at in a study of readings, and what its figures rest on, in sentences. */
import { firstFew } from '../model/first-few.js';
import type { GroupFigures } from './group-comparison.js';
import { outlierRuleText } from './outliers.js';
import type { SessionTrend } from './session-trend.js';
import {
  type ElementStudy,
  MOST_GROUPS,
  type ReadingsOptions,
  type ReadingsStudy,
} from './study-readings.js';

/** Sentences on each element, each led by its name. */
export function readingsWarnings(
  { elements, foreignOnly }: ReadingsStudy,
  options: ReadingsOptions,
): string[] {
  return [
    ...elements.flatMap((e) => elementWarnings(e, options).map((text) => `${e.element}: ${text}`)),
    ...foreignOnly.map(
      ({ element }) => `${element}: only foreign occurrences were written down, so there is no time for it.`,
    ),
  ];
}

function elementWarnings(e: ElementStudy, options: ReadingsOptions): string[] {
  return [
    e.n === 1 ? 'one reading says nothing about variation.' : null,
    outlierWarning(e, options),
    e.trend === null ? null : trendWarning(e.trend, e.normal.mean),
    e.trend?.direction === 'none' && e.trend.hangsTogether ? hangingWarning(e.trend) : null,
    ...spokenGroups(e.groups).map((g) => groupWarning(g)),
    e.table?.isOutside ? tableWarning(e) : null,
    e.table?.problem ?? null,
  ].filter((text) => text !== null);
}

function outlierWarning(
  { outliers, otherWay, mean }: ElementStudy,
  { dropOutliers }: ReadingsOptions,
): string | null {
  if (outliers.length === 0 || otherWay === null) return null;
  const named = firstFew(
    outliers.map((o) => seconds(o.seconds) + placeText(o.line, o.note)),
    8,
  );
  const many = outliers.length > 1;
  const [they, them] = many ? ['They are', 'them'] : ['It is', 'it'];
  const where = dropOutliers ? `left out of the figures; with ${them}` : `in the figures; without ${them}`;
  const [other, own] = [seconds(otherWay.mean), seconds(mean)];
  const kept = `${they} ${where} the mean ${other === own ? `stays ${own}` : `is ${other} instead of ${own}`}`;
  return `${named} ${many ? 'lie' : 'lies'} far from the others. ${kept}.`;
}

function placeText(line: number | null, note: string): string {
  const place = line === null ? '' : `line ${line}`;
  const all = [place, note].filter((text) => text !== '').join(', ');
  return all === '' ? '' : ` (${all})`;
}

function trendWarning(trend: SessionTrend, mean: number): string | null {
  if (trend.direction === 'none') return null;
  const change = `${seconds(Math.abs(trend.changeS))} (${share(Math.abs(trend.changeS) / mean)}) from the first reading to the last`;
  if (trend.direction === 'rises')
    return `the time rises by about ${change}: wear, heat or fatigue. The mean is that of this session, not of a settled state.`;
  const learning =
    trend.learningRatePct === null
      ? ''
      : ` As a learning curve, each doubling of the count leaves ${trend.learningRatePct.toFixed(0)}% of the time.`;
  return `the time falls by about ${change}: warming up or learning.${learning} The mean is that of this session, not of a settled state.`;
}

function hangingWarning({ autocorrelation }: SessionTrend): string {
  const r = autocorrelation!;
  return r > 0
    ? `each reading resembles the one before (correlation ${r.toFixed(2)}), so the mean is known less well than its interval says.`
    : `long and short readings take turns (correlation ${r.toFixed(2)}): two methods, or two fixtures, may be mixed.`;
}

/** Of two, what is said of the one says all. */
function spokenGroups(groups: readonly GroupFigures[]): GroupFigures[] {
  const isPair = (by: GroupFigures['by']): boolean => groups.filter((g) => g.by === by).length === 2;
  return groups.filter((g, i) => !isPair(g.by) || groups[i + 1]?.by === g.by);
}

function groupWarning({ by, name, againstOthers }: GroupFigures): string | null {
  if (againstOthers === null) return null;
  const { mean, ciLow, ciHigh } = againstOthers;
  if (ciLow <= 0 && ciHigh >= 0) return null;
  const who = name === '' ? `readings without ${by === 'cell' ? 'a cell' : 'an observer'}` : `${by} ${name}`;
  return `${who}: ${seconds(Math.abs(mean))} ${mean > 0 ? 'longer' : 'shorter'} than the others (${seconds(ciLow)} to ${seconds(ciHigh)}); the pooled mean mixes unlike ones.`;
}

function tableWarning({ table, normal }: ElementStudy): string {
  const apart = normal.mean - table!.tableS!;
  const part = table!.tableS === 0 ? '' : ` (${share(Math.abs(apart) / table!.tableS!)})`;
  return `the tables have ${seconds(table!.tableS!)}; measured it is ${seconds(normal.mean)}, ${seconds(Math.abs(apart))}${part} ${apart > 0 ? 'longer' : 'shorter'}, more than the uncertainty of the readings.`;
}

/** What the figures rest on. */
export function readingsAssumptions(study: ReadingsStudy, options: ReadingsOptions): string[] {
  const { accuracyPct, confidencePct, allowance } = options;
  const level = `${confidencePct}%`;
  return [
    `Intervals of means are Student's, at ${level}, and take the readings as independent.`,
    `Readings needed: (z s / (k mean))^2 for ${accuracyPct}% of the mean to either side at ${level} (International Labour Office, Introduction to Work Study), s with n - 1; "still to take" goes by Student's t, which asks for a few more.`,
    `Outliers are readings ${outlierRuleText[options.outlierRule]}.`,
    ...(study.elements.some((e) => e.isRated)
      ? [
          'Normal time is each reading times its rating; outliers, trends, distributions and rows go by normal times.',
        ]
      : []),
    ...(allowance === null ? [] : [allowanceText(allowance)]),
    'Distributions are fitted by maximum likelihood and compared by the corrected Akaike criterion; of those within 2 of the best the plainest is taken that passes the test of Anderson and Darling (parametric bootstrap, 5%). It is then moved onto the mean of the readings.',
    ...study.notes,
    ...(study.scatters.some((s) => s.from.length > 1)
      ? [
          'Where several elements share one row of variation.csv, their readings are pooled relative to their means.',
        ]
      : []),
    ...(study.elements.some((e) => e.trend === null)
      ? ['Trends are looked for from six unlike readings on.']
      : []),
    ...(study.elements.some((e) => e.groups.length > 0)
      ? [
          `Observers and cells, up to ${MOST_GROUPS}, are each held against all others (Welch's interval, at ${level} for all together).`,
        ]
      : []),
  ];
}

function allowanceText({ pct, basis }: NonNullable<ReadingsOptions['allowance']>): string {
  const of = basis === 'work' ? 'the normal time' : 'the whole time of the day';
  return `Standard time has an allowance of ${pct}% of ${of}. It is for people: rows for the tables hold normal times without it.`;
}

function seconds(value: number): string {
  const digits = Math.abs(value) < 10 ? 2 : 1;
  return `${value.toFixed(digits)} s`;
}

function share(value: number): string {
  return `${(100 * value).toFixed(1)}%`;
}
