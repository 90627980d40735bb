/** How a table is written as CSV: the sign between the columns, and the decimal mark of its numbers. */
export interface CsvForm {
  readonly separator: ',' | ';';
  readonly decimal: '.' | ',';
}

/** The forms by the names that `--csv` takes. */
export const CSV_FORMS = {
  'comma-point': { separator: ',', decimal: '.' },
  'semicolon-comma': { separator: ';', decimal: ',' },
  'semicolon-point': { separator: ';', decimal: '.' },
} as const satisfies Readonly<Record<string, CsvForm>>;

/** The form where nothing says otherwise. */
export const PLAIN_CSV: CsvForm = CSV_FORMS['comma-point'];
