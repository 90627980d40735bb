/** Rows of variation.csv from the values that a log measured. */
import type { Cell, Element } from '../../model/cell.js';
import { chooseFit } from '../../readings/fit/choose-fit.js';
import { rowParameters } from '../../readings/row-figures.js';
import type { LogAnalysis } from '../log-analysis.js';
import type { Measure } from '../measure.js';
import type { StationTrack } from '../station-track.js';
import type { VariationRow } from './compared.js';

/** Values below which a scatter is not worth a row. */
const FEWEST = 20;
/** Scatter, as a share of the mean, below which a time counts as constant. */
const CONSTANT = 0.002;

const ELEMENTS: readonly {
  readonly element: Element;
  readonly of: (t: StationTrack) => Measure;
  readonly unitS: number;
}[] = [
  { element: 'cycle', of: (t) => t.cycle.all, unitS: 1 },
  { element: 'load', of: (t) => t.load.all, unitS: 1 },
  { element: 'unload', of: (t) => t.unload.all, unitS: 1 },
  { element: 'repair', of: (t) => t.repair, unitS: 60 },
  { element: 'response', of: (t) => t.response, unitS: 60 },
];

/** @returns a row for each time that scatters, of stations that the cell has */
export function measuredVariation(cell: Cell, { stations, tracks }: LogAnalysis): VariationRow[] {
  const known = new Set(cell.stations.map((s) => s.name));
  return tracks.flatMap((track, i) => {
    const station = stations.list[i]!;
    if (track === undefined || !known.has(station)) return [];
    return ELEMENTS.flatMap(({ element, of, unitS }) => rowOf(station, element, of(track), unitS));
  });
}

function rowOf(station: string, element: Element, measure: Measure, unitS: number): VariationRow[] {
  const values = measure.sample().filter((v) => v > 0);
  const spread = measure.summary(0.95);
  if (values.length < FEWEST || spread?.sd == null || spread.sd < CONSTANT * spread.mean) return [];
  const fit = chooseFit(values);
  const [a, b, c] = rowParameters(fit.distribution, fit.parameters, unitS, fit.sd);
  return [{ station, element, distribution: fit.distribution, a, b, c, n: measure.n, reason: fit.reason }];
}
