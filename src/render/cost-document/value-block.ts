/** How the value of the watched way spreads when all doubtful inputs are drawn at once. */
import { watchedWay } from '../../core/model/watched-way.js';
import type { ChartOrReason } from '../charts/chart-of.js';
import { valueChart } from '../charts/value-chart.js';
import { type CaseView, subject } from './case-view.js';

export function valueBlock(view: CaseView): ChartOrReason {
  const { result, numbers } = view;
  const { currency, basis } = result;
  return valueChart(watchedWay(result).risk, { name: subject(view), currency, basis }, numbers);
}
