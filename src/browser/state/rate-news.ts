/** What the last change did to the rate, in words, once the new rate is known. */
import { effect, signal, untracked } from '@preact/signals';
import type { Cell } from '../../core/model/cell.js';
import { numberText } from '../../render/numbers.js';
import { answerTo } from './answers.js';
import { isEmpty } from './desk.js';
import { desk, errors, inspection, isDragging, status } from './store.js';

/** Empty until then, and once something else was done. */
export const rateNews = signal('');

export function keepRateNews(): void {
  let told: { readonly cell: Cell; readonly rate: number | null } | null = null;
  effect(() => {
    if (status.value !== '') rateNews.value = '';
  });
  effect(() => {
    const { said, isStale } = answerTo('schedule');
    const count = errors.value.length;
    if (isDragging.value) return;
    untracked(() => {
      const { cell } = inspection.value;
      if (cell === null) {
        rateNews.value =
          count === 0 || isEmpty(desk.value)
            ? ''
            : `No results: ${count === 1 ? '1 error' : `${count} errors`}.`;
        return;
      }
      if (said === null || isStale || said.stage === 'first' || told?.cell === cell) return;
      const rate = said.schedule?.partsPerH.total ?? null;
      rateNews.value = newsText(rate, told?.rate ?? null);
      told = { cell, rate };
    });
  });
}

/** @param before null where there was none */
export function newsText(rate: number | null, before: number | null): string {
  if (rate === null) return 'No sequence can be repeated.';
  const text = `Output ${numberText(rate, 1)} parts/h`;
  if (before === null) return `${text}.`;
  const by = rate - before;
  if (Math.abs(by) < 0.005) return `${text}, as before.`;
  return `${text}, ${numberText(Math.abs(by), Math.abs(by) < 0.95 ? 2 : 1)} ${by > 0 ? 'more' : 'less'} than before.`;
}
