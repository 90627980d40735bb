/** A study of readings as text, and its figures as CSV. */
import type { FitChoice } from '../core/readings/fit/choose-fit.js';
import type { ElementStudy, ReadingsOptions, ReadingsStudy } from '../core/readings/study-readings.js';
import { tableText } from '../tables/table-text.js';
import { countText, numberText, percentText } from './numbers.js';
import { neededTable, readingText, timesTable, variationTable } from './result-tables/readings-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

export interface ReadingsView {
  readonly study: ReadingsStudy;
  readonly options: ReadingsOptions;
  /** Name of the file or folder that the tables are of; null where none is given. */
  readonly folder: string | null;
}

export function renderReadings(view: ReadingsView, style: TextStyle): string {
  const { study } = view;
  const { said, section, filled } = printer(style);
  return pieces(
    said(readingsAnswer(view)),
    section('Times', timesTable(study, view.options, view.folder !== null)),
    section('Variation', variationTable(study)),
    section('Readings needed, and trend', neededTable(study)),
    section('Distributions', study.elements.map(fitText)),
    filled('Foreign elements (excluded)', foreignTexts(study)),
    ...study.tables.map(({ file, header, rows }) =>
      section(`Rows for ${file}`, tableText([header, ...rows]).trimEnd()),
    ),
  );
}

/** How much was timed, what is known well enough, and what is not yet. */
export function readingsAnswer({ study, options }: ReadingsView): string {
  const { totals, elements } = study;
  const apart =
    totals.foreign === 0
      ? ''
      : `; ${countText(totals.foreign, 'foreign element')} (${percentText(totals.foreignPct)} of the time) ${totals.foreign === 1 ? 'is' : 'are'} excluded`;
  const counted = `${countText(totals.regular, 'reading')} of ${countText(elements.length, 'element')}${apart}.`;
  const lacking = elements.filter((e) => e.moreN !== 0);
  const aim = `${options.accuracyPct}% at ${options.confidencePct}% confidence`;
  if (elements.length === 0) return `${counted} There is no time to show.`;
  if (lacking.length === 0) return `${counted} Every mean is known to ${aim}.`;
  const shown = lacking.slice(0, 6).map((e) => `${e.element} (${moreText(e)})`);
  const more = lacking.length > shown.length ? ` and ${lacking.length - shown.length} others` : '';
  const known = elements.length - lacking.length;
  return `${counted} ${known} of ${countText(elements.length, 'mean')} ${known === 1 || elements.length === 1 ? 'is' : 'are'} known to ${aim}; more readings are needed of ${shown.join(', ')}${more}.`;
}

function moreText({ moreN }: ElementStudy): string {
  return moreN === null ? 'at least a second one' : `${numberText(moreN)} more`;
}

function fitText({ element, fit }: ElementStudy): string {
  const deviation = fit.sd === 0 ? '' : `, standard deviation ${readingText(fit.sd)} s`;
  return `${element}: ${fitName(fit)} with mean ${readingText(fit.mean)} s${deviation}; ${fit.reason}.`;
}

function fitName({ distribution, parameters }: FitChoice): string {
  return distribution === 'readings' ? `the ${parameters.length} readings themselves` : distribution;
}

function foreignTexts({ elements, foreignOnly }: ReadingsStudy): string[] {
  const all = [...elements, ...foreignOnly].flatMap(({ element, foreign }) =>
    foreign === null ? [] : [{ element, ...foreign }],
  );
  return all.map((f) => {
    const often = f.oneIn === null ? '' : `, one in ${numberText(f.oneIn, 1)} readings`;
    const each = f.perReadingS === null ? '' : `; ${readingText(f.perReadingS)} s a reading`;
    const notes = f.notes.length === 0 ? '' : ` (${f.notes.slice(0, 4).join('; ')})`;
    return `${f.element}: ${numberText(f.count)}${often}, ${readingText(f.meanS)} s on average${each}${notes}.`;
  });
}
