/** Columns of names: of stations, parts, patterns, signals; and of free text. */
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import { type Reading, read, refuse } from './reading.js';

/** Control characters, direction marks and characters without width: they make unlike names look alike. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\uFFFE\uFFFF]/u;

const NAME_IN_WORDS = `a name of at most ${tableLimits.nameCharacters} characters`;

/** Words that plain objects keep for themselves; results are keyed by name. */
const KEPT_BY_OBJECTS: ReadonlySet<string> = new Set(Object.getOwnPropertyNames(Object.prototype));

/** Most names are of this kind; for them the slower checks of every character are not needed. */
const PLAIN = /^[A-Za-z0-9_.-][A-Za-z0-9_. -]*$/;

/** @param kept names or characters that mean something else in this column, each with what it means */
export function nameColumn(meaning: string, kept: Readonly<Record<string, string>> = {}): Column<string> {
  const words = new Set([...KEPT_BY_OBJECTS, ...Object.keys(kept)]);
  const isPlain = (text: string) =>
    text.length <= tableLimits.nameCharacters && PLAIN.test(text) && !words.has(text);
  return neededColumn({
    unit: '',
    meaning,
    allowed: NAME_IN_WORDS,
    read: (text) => (isPlain(text) ? read(text) : readName(text, kept)),
  });
}

/** Free text on one line. */
export function textColumn(meaning: string): Column<string> {
  const longest = 200;
  const allowed = `text of at most ${longest} characters`;
  return neededColumn({ unit: '', meaning, allowed, read: (text) => readVisible(text, longest, allowed) });
}

/** A station's name; the bar and the star have another use. */
export const stationName = (meaning: string): Column<string> =>
  nameColumn(meaning, { '|': 'separates alternative stations', '*': 'means all stations' });

export function readName(text: string, kept: Readonly<Record<string, string>> = {}): Reading<string> {
  const visible = readVisible(text, tableLimits.nameCharacters, NAME_IN_WORDS);
  if (!visible.ok) return visible;
  for (const [sign, use] of Object.entries(kept)) {
    const at = sign.length === 1 && sign !== '*' ? text.indexOf(sign) : text === sign ? 0 : -1;
    if (at >= 0) return refuse(keptFault(text, `\`${sign}\` ${use}`, [at, at + sign.length]));
  }
  if (KEPT_BY_OBJECTS.has(text))
    return refuse(keptFault(text, `\`${text}\` is kept by the program`, [0, text.length]));
  return visible;
}

function keptFault(text: string, why: string, span: [number, number]) {
  const help = 'Choose another name.';
  return { code: 'VAL08', text: `found ${inBackticks(text)} as a name, but ${why}`, help, span } as const;
}

function readVisible(text: string, longest: number, allowed: string): Reading<string> {
  const length = [...text].length;
  if (length > longest) {
    const found = `found ${inBackticks(text)} with ${length} characters, expected ${allowed}`;
    return refuse({ code: 'VAL06', text: found, help: null });
  }
  const unseen = UNSEEN.exec(text);
  if (!unseen) return read(text);
  const code = `U+${unseen[0].codePointAt(0)?.toString(16).toUpperCase().padStart(4, '0')}`;
  return refuse({
    code: 'VAL07',
    text: `found the control or invisible character ${code} at position ${unseen.index + 1}, expected visible characters only`,
    help: 'Type the text anew; it may have been copied from a page or a document.',
    span: [unseen.index, unseen.index + unseen[0].length],
  });
}
