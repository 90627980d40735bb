/** An estimate held against a log, as text: the answer first, then inputs, figures, and rows to paste. */

import type { ComparedElement, LogComparison } from '../core/log/against/compared.js';
import { listText } from '../core/model/list-text.js';
import { countText, numberText, signedText } from './numbers.js';
import { paragraph } from './paragraph.js';
import { elementTable, outcomeTable } from './result-tables/against-tables.js';
import { type Body, pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

/** What a schedule gives; null where there is none, with the reason. */
export interface Rate {
  readonly partsPerH: number | null;
  readonly periodS: number | null;
  readonly proven: boolean;
  readonly reason: string | null;
}

export interface AgainstView extends LogComparison {
  readonly estimate: Rate;
  /** With the measured values in place of those that were off; null where the tables refuse them. */
  readonly withMeasured: Rate | null;
  readonly logPartsPerH: number | null;
  /** Rows to paste, by table. */
  readonly rows: readonly {
    readonly file: string;
    readonly header: string;
    readonly rows: readonly string[];
  }[];
}

/** Inputs named in the answer. */
const NAMED = 4;
/** Inputs within their interval that are shown. */
const SHOWN = 30;

export function renderAgainst(view: AgainstView, style: TextStyle): string {
  const { section, filled } = printer(style);
  return pieces(
    section('Measured vs. estimate', ...againstAnswer(view).map((text) => paragraph(text, style.columns))),
    filled('Inputs: estimate and log', ...elementBodies(view.elements)),
    filled('What follows from them', outcomeTable(view.outcomes)),
    filled('What could not be compared', view.notes),
    ...view.rows.map(({ file, header, rows }) => section(`Rows for ${file}`, [header, ...rows].join('\n'))),
  );
}

function againstAnswer(view: AgainstView): string[] {
  const { elements } = view;
  if (elements.length === 0) return ['The log measures none of the inputs of the tables.'];
  const off = elements.filter((e) => e.isOff);
  const sure = `The intervals shown have ${numberText(view.confidencePct, 1)}% confidence each. An input is called off only outside a wider one (${numberText(view.jointConfidencePct, 3)}%), so that all ${countText(elements.length, 'input')} together hold at ${numberText(view.confidencePct, 1)}%; between the two it is not clear.`;
  const head =
    off.length === 0
      ? `All ${countText(elements.length, 'input')} that the log measures agree with the tables.`
      : `Of ${countText(elements.length, 'input')} that the log measures, ${numberText(off.length)} ${off.length === 1 ? 'is' : 'are'} off: ${listText(off.slice(0, NAMED).map(offText))}${off.length > NAMED ? `, and ${numberText(off.length - NAMED)} more` : ''}.`;
  return [head, sure, rateText(view)];
}

function offText({ element, offPct, measured, unit }: ComparedElement): string {
  if (offPct === null) return `${element} (not in the tables; measured ${numberText(measured, 2)} ${unit})`;
  return `${element} (${signedText(offPct, 1)}%)`;
}

function rateText({ estimate, withMeasured, logPartsPerH, settings }: AgainstView): string {
  const made =
    logPartsPerH === null ? '' : ` The log has ${numberText(logPartsPerH, 1)}, stops and pauses included.`;
  if (estimate.partsPerH === null)
    return `No schedule was found with the tables as they are: ${estimate.reason}`;
  const first = `The schedule of the tables gives ${numberText(estimate.partsPerH, 1)} parts an hour`;
  if (settings.length === 0) return `${first}; there is nothing to change in it.${made}`;
  if (withMeasured === null) return `${first}; the tables refuse the measured values.${made}`;
  if (withMeasured.partsPerH === null)
    return `${first}; with the measured values there is none: ${withMeasured.reason}${made}`;
  return `${first}, with the measured values ${numberText(withMeasured.partsPerH, 1)}.${made}`;
}

function elementBodies(elements: readonly ComparedElement[]): Body[] {
  const off = elements.filter((e) => e.isOff).length;
  const shown = elements.slice(0, off + SHOWN);
  const rest = elements.length - shown.length;
  return [
    elementTable(shown),
    rest > 0 ? `and ${countText(rest, 'input')} more within their interval.` : null,
  ];
}
