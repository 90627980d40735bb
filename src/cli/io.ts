/** All that a command sees of the world around it; tests give their own. */
import type { TextStyle } from '../render/text-style.js';

export interface Io {
  readonly stdout: (text: string) => void;
  readonly stderr: (text: string) => void;
  /** Folder against which relative paths are read. */
  readonly cwd: string;
  /** Standard output is a terminal. */
  readonly isTTY: boolean;
  /** Standard error is a terminal: progress may be shown there. */
  readonly isErrorTTY: boolean;
  /** Characters across the terminal; undefined where it is none. */
  readonly columns: number | undefined;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: string;
  /** Cells of the tables changed with `--set`; every command that reads a cell applies them. */
  readonly settings?: readonly string[];
  /** Calls `stop` at the first Ctrl-C from now on, in place of ending; the answer takes that back. */
  readonly onInterrupt?: (stop: () => void) => () => void;
}

/** Tables do not become narrower than this. */
const LEAST_COLUMNS = 72;
const PIPED_COLUMNS = 80;
const MOST_COLUMNS = 160;

/** The look of texts on standard output. */
export function styleOf(io: Io): TextStyle {
  const columns = io.columns ?? PIPED_COLUMNS;
  return {
    colour: usesColour(io, io.isTTY),
    columns: Math.min(MOST_COLUMNS, Math.max(LEAST_COLUMNS, columns)),
    ascii: !showsUnicode(io),
  };
}

/** NO_COLOR (no-color.org) and a terminal without colours win; FORCE_COLOR colours what is piped. */
export function usesColour({ env }: Io, isTerminal: boolean): boolean {
  if (env.NO_COLOR) return false;
  if (env.FORCE_COLOR && env.FORCE_COLOR !== '0') return true;
  return isTerminal && env.TERM !== 'dumb';
}

/** A locale that names another character set than UTF-8, and the old console of Windows, get plain characters. */
function showsUnicode({ env, platform }: Io): boolean {
  if (platform === 'win32') return Boolean(env.WT_SESSION || env.TERM_PROGRAM);
  if (env.TERM === 'dumb' || env.TERM === 'linux') return false;
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG || '';
  return locale === '' || /utf-?8/i.test(locale);
}
