/** Points, boxes, current and cable losses as text. */
import pc from 'picocolors';
import type { PointsResult } from '../core/io/points.js';
import { countText, numberText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { printTable, right, type TableData } from './text-table.js';

export function renderPoints(result: PointsResult, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  if (result.stations.length === 0)
    return `${paragraph('There are no points to count: signals.csv names no signal.', style.columns)}\n`;
  const warnings = pointsWarnings(result);
  const found =
    warnings.length === 0
      ? ''
      : `\n${paint.yellow('What to look at')}\n${bullets(warnings, style.columns)}\n`;
  return `${paragraph(pointsSentence(result), style.columns)}\n\n${printTable(pointsTable(result), style)}\n${found}`;
}

export function pointsSentence({ boxesTotal, stations }: PointsResult): string {
  return boxesTotal === null
    ? 'How many boxes are needed cannot be said without the data sheet of the box.'
    : `${countText(boxesTotal, 'box is', 'boxes are')} needed for ${countText(stations.length, 'station')}.`;
}

/** What to look at, each with its machine. */
export function pointsWarnings({ stations }: PointsResult): string[] {
  return stations.flatMap((s) => s.warnings.map((text) => `${s.station}: ${text}`));
}

export function pointsTable(result: PointsResult): TableData {
  const figure = (value: number | null, digits = 0): string =>
    value === null ? '-' : numberText(value, digits);
  return {
    columns: [
      { heading: 'station' },
      right('inputs'),
      right('outputs'),
      right('boxes'),
      right('spare\ninputs'),
      right('spare\noutputs'),
      right('supply\nA'),
      right('largest drop\non a cable %'),
    ],
    rows: result.stations.map((s) => [
      s.station,
      figure(s.inputs),
      figure(s.outputs),
      figure(s.boxes),
      figure(s.spareInputs),
      figure(s.spareOutputs),
      figure(s.amps, 2),
      figure(s.voltageDropPct, 2),
    ]),
  };
}
