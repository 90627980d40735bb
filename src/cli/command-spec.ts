/** A command as data: adding one means writing its body in src/cli/commands and its head in all-commands.ts. */
import type { Option } from 'commander';
import type { Answer } from './answer.js';
import type { Io } from './io.js';

/** What the help of the program needs; it reads no command's file. */
export interface CommandHead {
  readonly name: string;
  /** Arguments as shown, such as `<folder>`, `[folder]` or `<file> [folder]`. */
  readonly usage: string;
  readonly summary: string;
}

export interface CommandBody {
  /** What the argument is; one text for each where there are two. */
  readonly argument: string | readonly [first: string, second: string];
  readonly options: () => readonly Option[];
  /** What it writes where an option asks for it. */
  readonly writes?: Writes;
  /** Names of the tables that it answers with: `--out` writes them, for all commands in one way. */
  readonly tables?: readonly string[];
  /** Beside the tables `--out` writes a page with drawings, named after the command. */
  readonly page?: true;
  /** Command lines without the program's name, each of which runs as it stands after `init my-cell`. */
  readonly examples: readonly string[];
  /**
   * @param argument the first, where several may be given; all of them are then in `values.folders`, a second one of its
   *   own kind in `values.folder`
   * @param values values of the options by their camel-case names, checked
   */
  readonly run: (argument: string | undefined, values: OptionValues, io: Io) => Promise<Answer>;
}

export type CommandSpec = CommandHead & CommandBody;

/** An option that names where results are written (for a folder also a workbook, which then holds all tables), and the name that is taken where it is not given. */
export type Writes = { readonly option: string; readonly unasked?: string } & (
  | { readonly kind: 'folder' /** Names that may be written. */; readonly names: readonly string[] }
  | { readonly kind: 'file' }
);

export type OptionValues = Readonly<Record<string, unknown>>;

/**
 * The numbers that are given, by the names that a study has for them; one that is not given is left out.
 * @param options names of the options by field @example numbersOf(values, { hours: 'hours', halfWidthPct: 'precisionPct' })
 */
export function numbersOf<Field extends string>(
  values: OptionValues,
  options: Readonly<Record<Field, string>>,
): { [K in Field]?: number } {
  const given = Object.entries<string>(options).map(
    ([field, name]) => [field, numberOf(values, name)] as const,
  );
  return Object.fromEntries(given.filter(([, value]) => value !== undefined)) as { [K in Field]?: number };
}

/** The number given for an option, or undefined. */
export function numberOf(values: OptionValues, name: string): number | undefined {
  const value = values[name];
  return typeof value === 'number' ? value : undefined;
}
