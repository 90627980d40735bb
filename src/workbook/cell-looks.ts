/** The looks of cells, for both kinds of workbook. */
import type { CellLook } from './workbook.js';

interface LookStyle {
  readonly bold?: boolean;
  readonly italic?: boolean;
  /** Points. */
  readonly size?: number;
  /** Red, green, blue in hexadecimal digits. */
  readonly fill?: string;
  readonly ink?: string;
  readonly isWrapped?: boolean;
}

export const cellLooks: Readonly<Record<CellLook, LookStyle>> = {
  title: { bold: true, size: 14 },
  heading: { bold: true, fill: 'DDE5EE', isWrapped: true },
  input: { fill: 'FFF6D6' },
  result: { bold: true },
  comment: { italic: true, ink: '555555' },
  wrapped: { isWrapped: true },
};
