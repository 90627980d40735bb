/**
 * Where the cells of one record stand in its text. Used to mark the place of a fault, to tell where a record that
 * spans several lines ends, and to find quotation marks that do not pair.
 */

interface FieldSpan {
  /** Offsets into the record's text of the value inside quotation marks and spaces; end is exclusive. */
  readonly start: number;
  readonly end: number;
  readonly isQuoted: boolean;
}

export interface RecordScan {
  readonly spans: readonly FieldSpan[];
  /** `open`: a quotation mark is still open at the end. `fault`: text follows a closing mark, at `faultAt`. */
  readonly state: 'whole' | 'open' | 'fault';
  /** Offset of the mark that is open, or of the text that follows a closing mark. */
  readonly faultAt: number;
}

/** Scans the text of one record; quotation marks count only where a cell begins with one. */
export function scanRecord(text: string, delimiter: string): RecordScan {
  const spans: FieldSpan[] = [];
  let at = 0;
  for (;;) {
    const first = skipSpaces(text, at);
    if (text[first] !== '"') {
      const stop = endOfPlain(text, at, delimiter);
      spans.push(trimmedSpan(text, at, stop));
      if (stop === text.length) return { spans, state: 'whole', faultAt: -1 };
      at = stop + 1;
      continue;
    }
    const close = closingMark(text, first + 1);
    if (close === -1) return { spans, state: 'open', faultAt: first };
    spans.push({ start: first + 1, end: close, isQuoted: true });
    const after = skipSpaces(text, close + 1);
    if (after === text.length) return { spans, state: 'whole', faultAt: -1 };
    if (text[after] !== delimiter) return { spans, state: 'fault', faultAt: after };
    at = after + 1;
  }
}

/** What a cell says: a doubled mark inside quotation marks stands for one. */
export function spanText(text: string, { start, end, isQuoted }: FieldSpan): string {
  const value = text.slice(start, end);
  return isQuoted ? value.replaceAll('""', '"') : value;
}

/** Passes over what `trim` takes off: a no-break space is one too. */
function skipSpaces(text: string, from: number): number {
  let at = from;
  while (text[at]?.trim() === '') at += 1;
  return at;
}

function endOfPlain(text: string, from: number, delimiter: string): number {
  const at = text.indexOf(delimiter, from);
  return at === -1 ? text.length : at;
}

/** A stretch of the text without the spaces around it. */
export function trimmedSpan(text: string, from: number, to: number): FieldSpan {
  const raw = text.slice(from, to);
  const start = from + (raw.length - raw.trimStart().length);
  return { start, end: Math.max(start, from + raw.trimEnd().length), isQuoted: false };
}

/** Offset of the mark that closes the cell; a doubled mark stands for one mark. -1 = none. */
function closingMark(text: string, from: number): number {
  let at = text.indexOf('"', from);
  while (at !== -1 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  return at;
}
