/** Points, boxes, current and cable losses as text. */
import pc from 'picocolors';
import type { PointsResult } from '../core/io/points.js';
import { countText } from './numbers.js';
import { bullets } from './paragraph.js';
import { pointsTable } from './result-tables/point-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { printTable } from './text-table.js';

export function renderPoints(result: PointsResult, style: TextStyle): string {
  const { said } = printer(style);
  if (result.stations.length === 0) return said('There are no points to count: signals.csv names no signal.');
  const warnings = pointsWarnings(result);
  const title = pc.createColors(style.colour).yellow('What to look at');
  return pieces(
    said(pointsSentence(result)),
    `${printTable(pointsTable(result), style)}\n`,
    warnings.length > 0 && `${title}\n${bullets(warnings, style.columns)}\n`,
  );
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
