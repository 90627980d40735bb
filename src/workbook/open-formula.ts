/**
 * A formula as .ods files carry it (OpenFormula, OASIS Open Document Format 1.3 part 4): cells in square brackets with a
 * point after the sheet, semicolons between arguments.
 *
 * @example openFormula('SUM(B2:B9,inputs!$C$3)') // 'of:=SUM([.B2:.B9];[$inputs.$C$3])'
 */
const PIECES =
  /("(?:[^"]|"")*")|(?<![\w.])(?:('(?:[^']|'')+'|[A-Za-z_]\w*)!)?(\$?[A-Z]{1,3}\$?\d+)(?::(\$?[A-Z]{1,3}\$?\d+))?(?![\w(])|,/g;

export function openFormula(formula: string): string {
  const text = formula.replace(PIECES, (_, quoted?: string, sheet?: string, from?: string, to?: string) => {
    if (quoted !== undefined) return quoted;
    if (from === undefined) return ';';
    const place = sheet === undefined ? '' : `$${sheet}`;
    return to === undefined ? `[${place}.${from}]` : `[${place}.${from}:.${to}]`;
  });
  return `of:=${text}`;
}
