/** Safety functions among general-purpose signals: by their mark in signals.csv, and by words in their names. */
import type { Signal } from '../model/cell.js';

/** Words in a signal's name that commonly mean a safety function; others are the user's to mark. */
const SAFETY_WORDS =
  /(^|[^a-z])(e[-_ ]?stop|estop|emergency|guard|interlock|light[-_ ]?curtain|scanner|enabling|enable[-_ ]switch|two[-_ ]hand|safety|sto)([^a-z]|$)/i;

/**
 * One warning for each signal that is marked as a safety function or whose name sounds like one.
 *
 * A safety function belongs in the safety-rated circuit (ISO 13849-1, IEC 62061), not on a general-purpose point.
 */
export function safetyWarnings(signals: readonly Signal[]): string[] {
  return signals.flatMap((signal) => {
    if (signal.safety)
      return [
        `\`${signal.signal}\` is a safety function: it belongs in the safety-rated circuit (ISO 13849-1, IEC 62061), not on a general-purpose point of the box.`,
      ];
    if (SAFETY_WORDS.test(signal.signal))
      return [
        `\`${signal.signal}\` sounds like a safety function but is not marked as one: if it is, it belongs in the safety-rated circuit (ISO 13849-1, IEC 62061).`,
      ];
    return [];
  });
}
