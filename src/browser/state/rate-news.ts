/** What the last change did to the rate, in words, once the new rate is known. */
import { effect, signal, untracked } from '@preact/signals';
import { numberText } from '../../render/numbers.js';
import { answerTo, searched } from './answers.js';
import { isEmpty } from './desk.js';
import { desk, errors, inspection, status } from './store.js';

/** Empty until then, and once something else was done. */
export const rateNews = signal('');

export function keepRateNews(): void {
  let before: number | null = null;
  effect(() => {
    if (status.value !== '') rateNews.value = '';
  });
  effect(() => {
    const count = errors.value.length;
    if (count > 0 && !isEmpty(desk.value))
      rateNews.value = `No results: ${count === 1 ? '1 error' : `${count} errors`}.`;
  });
  // Of the cell that is there: an answer to an older one is not heard.
  effect(() => {
    const found = searched.value;
    untracked(() => {
      if (found === null || found.cell !== inspection.value.cell) return;
      if (answerTo('schedule').failed !== null) return;
      const rate = found.found?.partsPerH.total ?? null;
      rateNews.value = newsText(rate, before);
      before = rate;
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
