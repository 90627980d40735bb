/** A day of the week in the spellings that people use: in any case, short or whole, in six languages where it is plain. */
import { DAYS, type Day } from '../core/model/cell.js';

/** English, then German, Dutch, French, Spanish and Italian, from Monday on. */
const WHOLE: readonly (readonly string[])[] = [
  ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'],
  ['montag', 'dienstag', 'mittwoch', 'donnerstag', 'freitag', 'samstag', 'sonntag'],
  ['maandag', 'dinsdag', 'woensdag', 'donderdag', 'vrijdag', 'zaterdag', 'zondag'],
  ['lundi', 'mardi', 'mercredi', 'jeudi', 'vendredi', 'samedi', 'dimanche'],
  ['lunes', 'martes', 'miércoles', 'jueves', 'viernes', 'sábado', 'domingo'],
  ['lunedì', 'martedì', 'mercoledì', 'giovedì', 'venerdì', 'sabato', 'domenica'],
];

const LEAST_LETTERS = 2;

/** @returns the day that the word begins in every language that knows it; null where it is none or two languages differ */
export function dayNamed(text: string): Day | null {
  const own = DAYS.find((day) => day === text.trim());
  if (own !== undefined) return own;
  const word = bare(text.trim().replace(/\.$/, ''));
  if (word.length < LEAST_LETTERS) return null;
  const found = new Set(WHOLE.flatMap((week) => DAYS.filter((_, i) => bare(week[i]!).startsWith(word))));
  return found.size === 1 ? [...found][0]! : null;
}

/** Without accents, in small letters. */
function bare(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}
