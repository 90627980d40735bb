/**
 * Writes .ods files (OASIS Open Document Format 1.3): cells, formats, formulas, notes, drop-downs, frozen rows, names. The
 * libraries that were tried leave out notes, drop-downs and frozen rows, and write commas between the arguments of formulas.
 */
import { strToU8, zipSync } from 'fflate';
import { cellLooks } from './cell-looks.js';
import {
  type CellContent,
  type CellLook,
  type ChoiceRange,
  isRich,
  type NumberFormat,
  type RichCell,
  type Workbook,
  type WorkbookSheet,
} from './workbook.js';

const KIND = 'application/vnd.oasis.opendocument.spreadsheet';
const SPACES = [
  ['office', 'urn:oasis:names:tc:opendocument:xmlns:office:1.0'],
  ['table', 'urn:oasis:names:tc:opendocument:xmlns:table:1.0'],
  ['text', 'urn:oasis:names:tc:opendocument:xmlns:text:1.0'],
  ['style', 'urn:oasis:names:tc:opendocument:xmlns:style:1.0'],
  ['number', 'urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0'],
  ['fo', 'urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0'],
  ['config', 'urn:oasis:names:tc:opendocument:xmlns:config:1.0'],
  ['dc', 'http://purl.org/dc/elements/1.1/'],
  ['of', 'urn:oasis:names:tc:opendocument:xmlns:of:1.2'],
]
  .map(([prefix, name]) => ` xmlns:${prefix}="${name}"`)
  .join('');

const DEFAULT_WIDTH = 12;
/** Centimetres that a character takes at the usual size. */
const CM_PER_CHARACTER = 0.2;

/** The styles that a book needs, each once, in the order in which they turn up. */
interface Styles {
  readonly cells: Map<
    string,
    { readonly look: CellLook | undefined; readonly format: NumberFormat | undefined }
  >;
  readonly widths: Map<number, string>;
}

export function writeOdsBook(book: Workbook): Uint8Array {
  const styles: Styles = { cells: new Map(), widths: new Map() };
  const choices = book.sheets.flatMap((sheet) => (sheet.choices ?? []).map((choice) => ({ sheet, choice })));
  const nameOf = new Map(choices.map(({ choice }, i) => [choice, `choice${i + 1}`]));
  const tables = book.sheets.map((sheet) => tableXml(sheet, styles, nameOf)).join('');
  const content = `${choicesXml(choices, nameOf)}${tables}${namesXml(book)}`;
  const files = {
    mimetype: KIND,
    'META-INF/manifest.xml': manifestXml(),
    'content.xml': document(
      'content',
      `<office:automatic-styles>${stylesXml(styles)}</office:automatic-styles><office:body><office:spreadsheet>${content}</office:spreadsheet></office:body>`,
    ),
    'meta.xml': document('meta', `<office:meta><dc:title>${xmlText(book.title)}</dc:title></office:meta>`),
    'styles.xml': document('styles', '<office:styles/>'),
    'settings.xml': document('settings', settingsXml(book.sheets)),
  };
  // A fixed day, so that the same data give the same bytes; the first file lies uncompressed, as the format asks.
  const mtime = new Date(2000, 0, 1);
  return zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, text]) => [
        name,
        [strToU8(text), { mtime, level: name === 'mimetype' ? (0 as const) : (6 as const) }],
      ]),
    ),
  );
}

function document(part: string, inside: string): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n<office:document-${part}${SPACES} office:version="1.3">${inside}</office:document-${part}>`;
}

function manifestXml(): string {
  const entry = (path: string, kind: string) =>
    `<manifest:file-entry manifest:full-path="${path}" manifest:media-type="${kind}"/>`;
  const parts = ['content.xml', 'meta.xml', 'styles.xml', 'settings.xml'].map((p) => entry(p, 'text/xml'));
  return `<?xml version="1.0" encoding="UTF-8"?>\n<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0" manifest:version="1.3">${entry('/', KIND)}${parts.join('')}</manifest:manifest>`;
}

function tableXml(sheet: WorkbookSheet, styles: Styles, names: ReadonlyMap<ChoiceRange, string>): string {
  const choices = sheet.choices ?? [];
  const height = Math.max(sheet.rows.length, ...choices.map((c) => c.toRow + 1));
  const width = Math.max(1, ...sheet.rows.map((row) => row.length), ...choices.map((c) => c.column + 1));
  const columns = Array.from({ length: width }, (_, c) => {
    const name = widthStyle(styles, sheet.widths?.[c] ?? DEFAULT_WIDTH);
    return `<table:table-column table:style-name="${name}"/>`;
  });
  const rows: string[] = [];
  for (let r = 0; r < height; r += 1) {
    const cells = Array.from({ length: width }, (_, c) => {
      const choice = choices.find((x) => x.column === c && x.fromRow <= r && r <= x.toRow);
      return cellXml(sheet.rows[r]?.[c] ?? null, styles, choice && names.get(choice));
    });
    rows.push(`<table:table-row>${cells.join('')}</table:table-row>`);
  }
  return `<table:table table:name="${xmlText(sheet.name)}">${columns.join('')}${rows.join('')}</table:table>`;
}

function cellXml(content: CellContent, styles: Styles, choice: string | undefined): string {
  const cell: RichCell = isRich(content) ? content : { value: content };
  const { value, formula, note } = cell;
  const style = cellStyle(styles, cell);
  const attributes = [
    style === null ? '' : ` table:style-name="${style}"`,
    choice === undefined ? '' : ` table:content-validation-name="${choice}"`,
    formula === undefined ? '' : ` table:formula="${xmlText(openFormula(formula))}"`,
    valueAttributes(value, cell.format),
  ].join('');
  const said = note === undefined ? '' : `<office:annotation>${paragraphs(note)}</office:annotation>`;
  const shown = value === null ? '' : paragraphs(shownText(value, cell.format));
  return `<table:table-cell${attributes}>${said}${shown}</table:table-cell>`;
}

function valueAttributes(value: RichCell['value'], format: NumberFormat | undefined): string {
  if (value === null) return '';
  if (typeof value === 'string') return ' office:value-type="string"';
  if (typeof value === 'boolean') return ` office:value-type="boolean" office:boolean-value="${value}"`;
  return ` office:value-type="${format?.percent ? 'percentage' : 'float'}" office:value="${value}"`;
}

/** Programs show the number by its format; this text is for those that search the file. */
function shownText(value: string | number | boolean, format: NumberFormat | undefined): string {
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return value;
  if (format === undefined) return String(value);
  return format.percent ? `${(value * 100).toFixed(format.digits)}%` : value.toFixed(format.digits);
}

/** One paragraph a line; runs of blanks are kept as the format asks. */
function paragraphs(text: string): string {
  return text
    .split('\n')
    .map(
      (line) =>
        `<text:p>${xmlText(line).replace(/ {2,}/g, (run) => ` <text:s text:c="${run.length - 1}"/>`)}</text:p>`,
    )
    .join('');
}

function cellStyle(styles: Styles, { look, format }: RichCell): string | null {
  if (look === undefined && format === undefined) return null;
  const key = JSON.stringify([look, format]);
  const keys = [...styles.cells.keys()];
  const at = keys.indexOf(key);
  if (at === -1) styles.cells.set(key, { look, format });
  return `c${(at === -1 ? keys.length : at) + 1}`;
}

function widthStyle(styles: Styles, width: number): string {
  const known = styles.widths.get(width);
  if (known !== undefined) return known;
  const name = `w${styles.widths.size + 1}`;
  styles.widths.set(width, name);
  return name;
}

function stylesXml({ cells, widths }: Styles): string {
  const ofWidths = [...widths].map(
    ([width, name]) =>
      `<style:style style:name="${name}" style:family="table-column"><style:table-column-properties style:column-width="${(width * CM_PER_CHARACTER).toFixed(2)}cm"/></style:style>`,
  );
  const ofCells = [...cells.values()].map(({ look, format }, i) => {
    const number = format === undefined ? '' : numberStyle(`n${i + 1}`, format);
    const shown = format === undefined ? '' : ` style:data-style-name="n${i + 1}"`;
    return `${number}<style:style style:name="c${i + 1}" style:family="table-cell"${shown}>${lookXml(look)}</style:style>`;
  });
  return [...ofWidths, ...ofCells].join('');
}

function numberStyle(name: string, { digits, percent, unit }: NumberFormat): string {
  const number = `<number:number number:decimal-places="${digits}" number:min-decimal-places="${digits}" number:min-integer-digits="1" number:grouping="true"/>`;
  if (percent)
    return `<number:percentage-style style:name="${name}">${number}<number:text>%</number:text></number:percentage-style>`;
  const after = unit ? `<number:text> ${xmlText(unit)}</number:text>` : '';
  return `<number:number-style style:name="${name}">${number}${after}</number:number-style>`;
}

function lookXml(look: CellLook | undefined): string {
  if (look === undefined) return '';
  const { bold, italic, size, fill, ink, isWrapped } = cellLooks[look];
  const cell = [
    fill === undefined ? '' : ` fo:background-color="#${fill}"`,
    isWrapped ? ' fo:wrap-option="wrap" style:vertical-align="top"' : '',
  ].join('');
  const text = [
    bold ? ' fo:font-weight="bold"' : '',
    italic ? ' fo:font-style="italic"' : '',
    size === undefined ? '' : ` fo:font-size="${size}pt"`,
    ink === undefined ? '' : ` fo:color="#${ink}"`,
  ].join('');
  return `<style:table-cell-properties${cell}/><style:text-properties${text}/>`;
}

function choicesXml(
  choices: readonly { readonly sheet: WorkbookSheet; readonly choice: ChoiceRange }[],
  names: ReadonlyMap<ChoiceRange, string>,
): string {
  if (choices.length === 0) return '';
  const all = choices.map(({ sheet, choice }) => {
    const words = choice.words.map((word) => `"${word.replaceAll('"', '""')}"`).join(';');
    return `<table:content-validation table:name="${names.get(choice)}" table:condition="${xmlText(`of:cell-content-is-in-list(${words})`)}" table:allow-empty-cell="true" table:base-cell-address="${xmlText(sheetName(sheet.name))}.A1"><table:error-message table:message-type="warning" table:display="true"/></table:content-validation>`;
  });
  return `<table:content-validations>${all.join('')}</table:content-validations>`;
}

function namesXml({ names = {} }: Workbook): string {
  const all = Object.entries(names).map(([name, place]) => {
    const at = place.lastIndexOf('!');
    const address = xmlText(`$${place.slice(0, at)}.${place.slice(at + 1)}`);
    return `<table:named-range table:name="${name}" table:cell-range-address="${address}" table:base-cell-address="${address}"/>`;
  });
  return all.length === 0 ? '' : `<table:named-expressions>${all.join('')}</table:named-expressions>`;
}

function sheetName(name: string): string {
  return /^\w+$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}

/** How the sheets are looked at: which rows stay in sight. */
function settingsXml(sheets: readonly WorkbookSheet[]): string {
  const item = (name: string, kind: string, value: string | number) =>
    `<config:config-item config:name="${name}" config:type="${kind}">${value}</config:config-item>`;
  const entries = sheets
    .filter((sheet) => (sheet.frozenRows ?? 0) > 0)
    .map(
      (sheet) =>
        `<config:config-item-map-entry config:name="${xmlText(sheet.name)}">${item('HorizontalSplitMode', 'short', 0)}${item('VerticalSplitMode', 'short', 2)}${item('VerticalSplitPosition', 'int', sheet.frozenRows!)}${item('ActiveSplitRange', 'short', 2)}${item('PositionTop', 'int', 0)}${item('PositionBottom', 'int', sheet.frozenRows!)}</config:config-item-map-entry>`,
    );
  return `<office:settings><config:config-item-set config:name="ooo:view-settings"><config:config-item-map-indexed config:name="Views"><config:config-item-map-entry>${item('ViewId', 'string', 'view1')}<config:config-item-map-named config:name="Tables">${entries.join('')}</config:config-item-map-named></config:config-item-map-entry></config:config-item-map-indexed></config:config-item-set></office:settings>`;
}

const PIECES =
  /("(?:[^"]|"")*")|(?<![\w.])(?:('(?:[^']|'')+'|[A-Za-z_]\w*)!)?(\$?[A-Z]{1,3}\$?\d+)(?::(\$?[A-Z]{1,3}\$?\d+))?(?![\w(])|,/g;

/**
 * A formula as .ods files carry it (OpenFormula, OASIS Open Document Format 1.3 part 4): cells in square brackets with a
 * point after the sheet, semicolons between arguments.
 *
 * @example openFormula('SUM(B2:B9,inputs!$C$3)') // 'of:=SUM([.B2:.B9];[$inputs.$C$3])'
 */
export function openFormula(formula: string): string {
  const text = formula.replace(PIECES, (_, quoted?: string, sheet?: string, from?: string, to?: string) => {
    if (quoted !== undefined) return quoted;
    if (from === undefined) return ';';
    const place = sheet === undefined ? '' : `$${sheet}`;
    return to === undefined ? `[${place}.${from}]` : `[${place}.${from}:.${to}]`;
  });
  return `of:=${text}`;
}

const UNFIT = /(?![\t\n\r])\p{Cc}|\p{Cs}|[\uFFFE\uFFFF]/gu;

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/** Text as it stands in XML; characters that XML has no place for are left out. */
function xmlText(text: string): string {
  return text.replace(UNFIT, '').replace(/[&<>"]/g, (sign) => ENTITIES[sign]!);
}
