/** Columns of a time measured many times: how often, mean, interval, spread, quantiles, total. */
import type { MeasureSummary } from '../../core/log/measure.js';
import { type Column, figures } from '../columns.js';
import { numberText } from '../numbers.js';

/** In the order of a file. A row without the time shows that it lacks. */
export function measuredColumns<Row>(of: (row: Row) => MeasureSummary | null) {
  const column = (
    name: string,
    heading: string | undefined,
    digits: number,
    value: (m: MeasureSummary) => number | null,
    more: Pick<Column<Row>, 'text'> = {},
  ): Column<Row> =>
    figures(
      name,
      heading,
      digits,
      (row) => {
        const m = of(row);
        return m === null ? null : value(m);
      },
      { isShown: () => true, ...more },
    );
  return {
    n: column('n', 'times', 0, (m) => m.n),
    mean: column('mean_s', 'mean', 1, (m) => m.mean),
    sd: column('sd_s', 'std.\ndev.', 2, (m) => m.sd),
    interval: column('ci_low_s', '±', 1, (m) => m.ciLow, {
      text: (row) => numberText(of(row)!.ciHigh! - of(row)!.mean, 1),
    }),
    high: column('ci_high_s', undefined, 1, (m) => m.ciHigh),
    min: column('min_s', undefined, 1, (m) => m.min),
    p10: column('p10_s', 'P10', 1, (m) => m.p10),
    p50: column('p50_s', undefined, 1, (m) => m.p50),
    p90: column('p90_s', 'P90', 1, (m) => m.p90),
    max: column('max_s', undefined, 1, (m) => m.max),
    total: column('total_s', undefined, 1, (m) => m.total),
  };
}
