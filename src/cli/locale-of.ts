/** What `--locale` asks for: figures as a language and country write them. */
import { figuresInLocale, type InLocale } from '../render/figures-in-locale.js';
import type { Answer } from './answer.js';
import type { OptionValues } from './command-spec.js';

/** @returns null where figures keep the form that they are written in */
export function localeOf(
  { locale }: OptionValues,
  { names, currency }: NonNullable<Answer['named']> = { names: [], currency: '' },
): InLocale | null {
  return typeof locale === 'string' && locale !== 'en' ? figuresInLocale(locale, currency, names) : null;
}
