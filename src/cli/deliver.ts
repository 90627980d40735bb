/** Prints an answer: as JSON or as text, complaints and reasons on standard error. */
import { cautionsFor } from '../core/model/cautions.js';
import { renderComplaints } from '../render/complaints.js';
import { renderNotices } from '../render/notices.js';
import { resultJson } from '../render/result-json.js';
import { visibleLines } from '../render/visible-text.js';
import type { Answer } from './answer.js';
import { EXIT, type ExitCode } from './exit-codes.js';
import { type Io, styleOf, usesColour } from './io.js';
import { programVersion } from './version.js';

export function deliver(command: string, answer: Answer, isJson: boolean, io: Io): ExitCode {
  const complaints = answer.complaints ?? [];
  // All texts are made before the first is printed: a fault in one must not leave half an answer behind.
  const said = renderComplaints(complaints, { colour: usesColour(io, io.isErrorTTY) });
  const json = isJson ? jsonOf(command, answer) : '';
  const text = visibleLines(answerText(command, answer, io), styleOf(io).colour);
  if (said !== '') io.stderr(visibleLines(said, usesColour(io, io.isErrorTTY)));
  if (isJson) io.stdout(json);
  if (answer.exit === EXIT.done && !isJson) io.stdout(text);
  if (answer.exit !== EXIT.done) io.stderr(text);
  return answer.exit;
}

function jsonOf(command: string, { inputs, assumptions = [], warnings = [], fields }: Answer): string {
  return resultJson({ version: programVersion(), command, inputs, assumptions, warnings, fields });
}

function answerText(command: string, answer: Answer, io: Io): string {
  const style = styleOf(io);
  const text = answer.text(style);
  if (answer.exit !== EXIT.done || answer.noticesInFiles === true) return text;
  const notices = renderNotices(
    {
      warnings: answer.warnings ?? [],
      assumptions: answer.assumptions ?? [],
      cautions: cautionsFor(command),
    },
    style,
  );
  return notices === '' ? text : `${text}\n${notices}`;
}
