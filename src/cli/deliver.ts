/** Prints an answer: as JSON or as text, complaints and reasons on standard error. */
import { cautionsFor } from '../core/model/cautions.js';
import { renderComplaints } from '../render/complaints.js';
import { columnsInLocale, type InLocale } from '../render/figures-in-locale.js';
import { renderNotices, renderWarnings } from '../render/notices.js';
import { resultJson } from '../render/result-json.js';
import { visibleLines } from '../render/visible-text.js';
import type { Answer } from './answer.js';
import type { OptionValues } from './command-spec.js';
import { EXIT, type ExitCode } from './exit-codes.js';
import { type Io, styleOf, usesColour } from './io.js';
import { localeOf } from './locale-of.js';
import { PROGRAM, programVersion } from './version.js';

/** Commands whose answers carry their cautions in full, since what they count is wired by hand. */
const FULL_CAUTIONS = ['io'];

/** Commands whose short answer leaves tables out. */
const HIDES_TABLES = ['schedule', 'shifts', 'size', 'simulate', 'compare', 'mix', 'costcase'];

/** @param values options of the command: `--json`, `--full`, `--assumptions`, `--chart` */
export function deliver(command: string, answer: Answer, values: OptionValues, io: Io): ExitCode {
  const complaints = answer.complaints ?? [];
  const isJson = values.json === true;
  // All texts are made before the first is printed: a fault in one must not leave half an answer behind.
  const said = renderComplaints(complaints, { colour: usesColour(io, io.isErrorTTY) });
  const json = isJson ? jsonOf(command, answer) : '';
  const text = visibleLines(answerText(command, answer, values, io), styleOf(io).colour);
  if (said !== '') io.stderr(visibleLines(said, usesColour(io, io.isErrorTTY)));
  if (isJson) io.stdout(json);
  if (!hasResult(answer)) io.stderr(text);
  else if (!isJson) io.stdout(text);
  return answer.exit;
}

function hasResult({ exit, bestSoFar = false }: Answer): boolean {
  return exit === EXIT.done || bestSoFar;
}

/** Blanks before signs of per cent, in a line. */
const LOCALE_MAY_ADD = 3;

function jsonOf(command: string, { inputs, assumptions = [], warnings = [], fields }: Answer): string {
  return resultJson({ version: programVersion(), command, inputs, assumptions, warnings, fields });
}

function answerText(command: string, answer: Answer, values: OptionValues, io: Io): string {
  const full = values.full === true;
  const inLocale = localeOf(values, answer.named);
  const { columns, ...look } = styleOf(io);
  const style = {
    ...look,
    columns: inLocale === null ? columns : columns - LOCALE_MAY_ADD,
    full,
    chart: full || values.chart === true,
  };
  const shown: InLocale = inLocale === null ? (said) => said : columnsInLocale(inLocale);
  const text = shown(answer.text(style));
  if (!hasResult(answer) || answer.noticesInFiles === true) return text;
  const { notes = 0 } = answer;
  const assumptions = (answer.assumptions ?? []).map(shown);
  const detail = {
    allAssumptions: full || values.assumptions === true,
    allCautions: full || FULL_CAUTIONS.includes(command),
  };
  const notices = renderNotices(
    {
      assumptions,
      key: [
        ...assumptions.slice(0, notes),
        ...keyAssumptions(command, answer.assumptions?.slice(notes) ?? []).map(shown),
      ],
      cautions: cautionsFor(command),
      cautionsBy: `${PROGRAM} cautions ${command}`,
      hidesTables: HIDES_TABLES.includes(command),
    },
    detail,
    style,
  );
  const warnings = renderWarnings((answer.warnings ?? []).map(shown), style);
  // A line alone needs no blank line before it.
  const gap = notices.trimEnd().includes('\n') ? '\n' : '';
  return `${warnings}${text}${notices === '' ? '' : `${gap}${notices}`}`;
}

/** Made on the command line or by the folder: always shown. */
const OF_THE_RUN = /as the command line says/;

/** Which of a command's assumptions move its figures most: shown with every short answer, the others with `--assumptions`. */
export const KEY_ASSUMPTIONS: Readonly<Record<string, readonly RegExp[]>> = {
  schedule: [/^The sequence is chosen for/, /^Constant times\./],
  shifts: [/^Constant times\./],
  size: [/^Parts per shift and labour come/],
  compare: [/^Simulated: /],
  mix: [/^Upper limit: interference/],
  jobs: [/^"Proven optimal" covers/],
  costcase: [/every part made counts as sold/],
};

function keyAssumptions(command: string, assumptions: readonly string[]): string[] {
  const keys = KEY_ASSUMPTIONS[command] ?? [];
  return assumptions.filter((text) => OF_THE_RUN.test(text) || keys.some((key) => key.test(text)));
}
