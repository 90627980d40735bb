/**
 * Holds the estimate against the log, input by input and figure by figure. Each measured mean comes with its interval;
 * an input is called off only where the estimate lies outside an interval that holds for all compared inputs together
 * (Bonferroni), so that among many inputs none is called off by chance alone.
 */
import type { Cell } from '../../model/cell.js';
import type { LogAnalysis } from '../log-analysis.js';
import type { LogResult } from '../log-result.js';
import type { ComparedElement, Expected, LogComparison } from './compared.js';
import { comparedOutcomes } from './compared-outcomes.js';
import { measuredSettings } from './measured-settings.js';
import { measuredVariation } from './measured-variation.js';
import { type MeasuredElement, routeElements } from './route-elements.js';
import { stationElements } from './station-elements.js';
import { indexElements, wayElements } from './way-elements.js';

/** @param expected null where no schedule was found */
export function compareLog(
  cell: Cell,
  log: LogResult,
  analysis: LogAnalysis,
  expected: Expected | null,
): LogComparison {
  const found = [routeElements, stationElements, indexElements, wayElements].map((of) => of(cell, log));
  const measured = found.flatMap((f) => f.elements);
  const confidence = log.confidencePct / 100;
  const joint = 1 - (1 - confidence) / Math.max(1, measured.length);
  const elements = measured
    .map((m) => compared(m, confidence, joint, log.resolutionS))
    .sort((a, b) => Number(b.isOff) - Number(a.isOff) || Math.abs(b.offPct ?? 0) - Math.abs(a.offPct ?? 0));
  return {
    elements,
    outcomes: expected === null ? [] : comparedOutcomes(cell, log, expected),
    confidencePct: log.confidencePct,
    jointConfidencePct: 100 * joint,
    settings: measuredSettings(cell, elements),
    variation: measuredVariation(cell, analysis),
    notes: found.flatMap((f) => f.notes),
  };
}

const SECONDS = { s: 1, min: 60, h: 3600 } as const;

function compared(
  { measured, estimate, ...names }: MeasuredElement,
  confidence: number,
  joint: number,
  resolutionS: number,
): ComparedElement {
  const own = measured.interval(confidence);
  const wide = measured.interval(joint);
  const slack = resolutionS / 2 / SECONDS[names.unit];
  const isOff =
    estimate === null || (wide !== null && (estimate < wide.low - slack || estimate > wide.high + slack));
  return {
    ...names,
    estimate,
    measured: measured.mean,
    n: measured.n,
    sd: measured.sd,
    ciLow: own === null ? null : Math.max(0, own.low),
    ciHigh: own === null || !Number.isFinite(own.high) ? null : own.high,
    offPct: estimate !== null && estimate > 0 ? 100 * (measured.mean / estimate - 1) : null,
    isOff,
  };
}
