/**
 * Picks a figure out of a result by its path, such as `schedule.robot.utilizationPct` or
 * `shifts.patterns.day.partsPerWeek.total`. Entries of a list go by their name (station, pattern, job, part, cause), or
 * where they have none or share one, by their number from 0.
 */

export type Figure = number | string | boolean | null;

export type FigurePick =
  | { readonly ok: true; readonly value: Figure }
  | {
      readonly ok: false;
      /** The part of the path that could be followed. */
      readonly followed: string;
      /** What stands there. */
      readonly names: readonly string[];
    };

const NAMING = [
  'station',
  'pattern',
  'job',
  'part',
  'shift',
  'cause',
  'element',
  'name',
  'item',
  'machines',
  'resource',
  'goal',
] as const;

export function pickFigure(result: unknown, path: string, followed = ''): FigurePick {
  if (path === '') {
    if (result === null || typeof result !== 'object') return { ok: true, value: figureOf(result) };
    return { ok: false, followed, names: entriesOf(result).map(([name]) => name) };
  }
  if (result === null || typeof result !== 'object') return { ok: false, followed, names: [] };
  const entries = entriesOf(result);
  const fitting = entries
    .filter(([name]) => path === name || path.startsWith(`${name}.`))
    .sort(([a], [b]) => b.length - a.length)[0];
  if (!fitting) return { ok: false, followed, names: entries.map(([name]) => name) };
  const [name, inner] = fitting;
  return pickFigure(inner, path.slice(name.length + 1), followed === '' ? name : `${followed}.${name}`);
}

function entriesOf(value: object): (readonly [string, unknown])[] {
  if (!Array.isArray(value)) return Object.entries(value);
  const names = value.map(nameOf);
  const isNamed = new Set(names).size === names.length && !names.includes(null);
  return value.map((entry, i) => [isNamed ? names[i]! : String(i), entry] as const);
}

function nameOf(entry: unknown): string | null {
  if (entry === null || typeof entry !== 'object') return null;
  const key = NAMING.find((k) => k in entry);
  return key === undefined ? null : String((entry as Record<string, unknown>)[key]);
}

function figureOf(value: unknown): Figure {
  if (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') return value;
  return null;
}
