/** The column that names one station or several alternatives with a bar between them. */
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { readName } from './name-column.js';
import { type Reading, read, refuse } from './reading.js';

/** One of the names in the cell, with where it stands in the cell's text. */
export interface NamedAlternative {
  readonly name: string;
  readonly span: readonly [start: number, end: number];
}

export function alternativesColumn(meaning: string): Column<readonly NamedAlternative[]> {
  const allowed = 'a station, or alternatives with a bar between them such as `mill_1|mill_2`';
  return neededColumn({ unit: '', meaning, allowed, read: readAlternatives });
}

function readAlternatives(text: string): Reading<readonly NamedAlternative[]> {
  const alternatives = new Map<string, NamedAlternative>();
  for (const { name, span } of namesBetweenBars(text)) {
    if (name === '') {
      const found = `found an empty place beside a bar in ${inBackticks(text)}, expected a station`;
      return refuse({ code: 'ROU14', text: found, help: 'Leave out the bar that is too many.' });
    }
    const reading = readName(name, { '*': 'means all stations' });
    if (!reading.ok) return refuse({ ...reading.fault, span });
    if (alternatives.has(name)) {
      const found = `${inBackticks(name)} is named twice in one step`;
      return refuse({ code: 'ROU06', text: found, help: 'Name each alternative once.', span });
    }
    alternatives.set(name, { name, span });
  }
  return read([...alternatives.values()]);
}

function namesBetweenBars(text: string): NamedAlternative[] {
  let at = 0;
  return text.split('|').map((part) => {
    const start = at + (part.length - part.trimStart().length);
    at += part.length + 1;
    return { name: part.trim(), span: [start, start + part.trim().length] };
  });
}
