/** A day of the week in the spellings that people use: in any case, short or whole, in six languages where it is plain. */
import { DAYS, type Day } from '../core/model/cell.js';

/** English, then German, Dutch, French, Spanish and Italian, from Monday on, without accents. */
const WHOLE: readonly (readonly string[])[] = [
  ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'],
  ['montag', 'dienstag', 'mittwoch', 'donnerstag', 'freitag', 'samstag', 'sonntag'],
  ['maandag', 'dinsdag', 'woensdag', 'donderdag', 'vrijdag', 'zaterdag', 'zondag'],
  ['lundi', 'mardi', 'mercredi', 'jeudi', 'vendredi', 'samedi', 'dimanche'],
  ['lunes', 'martes', 'miercoles', 'jueves', 'viernes', 'sabado', 'domingo'],
  ['lunedi', 'martedi', 'mercoledi', 'giovedi', 'venerdi', 'sabato', 'domenica'],
];

const LEAST_LETTERS = 2;

/** @returns the day that the word begins in every language that knows it; null where it is none or two languages differ */
export function dayNamed(text: string): Day | null {
  const word = text.trim().replace(/\.$/, '').normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
  if (word.length < LEAST_LETTERS) return null;
  const found = new Set(WHOLE.flatMap((week) => DAYS.filter((_, i) => week[i]!.startsWith(word))));
  return found.size === 1 ? [...found][0]! : null;
}
