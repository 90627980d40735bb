/** A document as data: what it says, without how it looks. Drawn as Markdown or as one HTML page. */

export interface BlockColumn {
  readonly heading: string;
  readonly align?: 'right';
}

export type Block =
  | SectionBlock
  | SubsectionBlock
  | ParagraphBlock
  | ListBlock
  | TableBlock
  | BesideBlock
  | FoldBlock
  | FiguresBlock
  | ChartBlock;

export interface SectionBlock {
  readonly kind: 'section';
  readonly title: string;
  readonly newPage?: boolean;
}

export interface SubsectionBlock {
  readonly kind: 'subsection';
  readonly title: string;
}

export interface ParagraphBlock {
  readonly kind: 'paragraph';
  readonly text: string;
  readonly tone?: 'lead' | 'note';
}

export interface ListBlock {
  readonly kind: 'list';
  readonly items: readonly string[];
  /** Words of others: their figures keep their form. */
  readonly quoted?: boolean;
}

export interface TableBlock {
  readonly kind: 'table';
  readonly caption: string;
  /** The first column names the row. */
  readonly columns: readonly BlockColumn[];
  readonly rows: readonly (readonly string[])[];
  /** Long texts in the cells: they may be broken into lines. */
  readonly prose?: boolean;
  /** Many columns with words in them: on a small screen it scrolls rather than break every word. */
  readonly wide?: boolean;
  /** As it stands in a file or a book: its figures keep their form. */
  readonly quoted?: boolean;
}

/** Pieces beside one another where the page is wide enough, else one below the other. */
export interface BesideBlock {
  readonly kind: 'beside';
  readonly pieces: readonly (readonly InnerBlock[])[];
  /** Columns of one width, for running text; otherwise each is as wide as its table. */
  readonly even?: boolean;
}

/** A few figures in large type. */
export interface FiguresBlock {
  readonly kind: 'figures';
  readonly items: readonly KeyFigure[];
}

export interface KeyFigure {
  readonly value: string;
  readonly what: string;
  /** How sure it is. */
  readonly sure: string;
}

/** What stands closed on the page until it is opened, and is not printed. */
export interface FoldBlock {
  readonly kind: 'fold';
  readonly title: string;
  readonly blocks: readonly InnerBlock[];
}

/** What stands within a section. */
export type InnerBlock = Exclude<Block, SectionBlock>;

export interface ChartBlock {
  readonly kind: 'chart';
  /** The finding, as a sentence. */
  readonly title: string;
  /** The same for those who do not see the picture. */
  readonly description: string;
  /** An `<svg>` for a wide page and one for a narrow one, of which the page shows one; without styles of their own. */
  readonly svg: string;
  /** What the lines and marks are. */
  readonly note: string;
  /** The figures that are drawn. */
  readonly data?: TableBlock;
  /** Its marks can be pointed at and stepped through; what they say is shown beneath where the page has its script. */
  readonly interactive?: boolean;
  /** Drawn as on a narrow page, since it shares its line with another. */
  readonly half?: boolean;
}

export interface Document {
  readonly title: string;
  readonly subtitle: string;
  /** The page begins with a list of its sections. */
  readonly contents?: boolean;
  readonly blocks: readonly Block[];
}

export const right = (heading: string): BlockColumn => ({ heading, align: 'right' });
export const left = (heading: string): BlockColumn => ({ heading });

export const section = (title: string, newPage = false): SectionBlock => ({
  kind: 'section',
  title,
  newPage,
});
export const subsection = (title: string): SubsectionBlock => ({ kind: 'subsection', title });
export const said = (text: string): ParagraphBlock => ({ kind: 'paragraph', text });
export const lead = (text: string): ParagraphBlock => ({ kind: 'paragraph', tone: 'lead', text });
export const note = (text: string): ParagraphBlock => ({ kind: 'paragraph', tone: 'note', text });
export const listOf = (items: readonly string[]): ListBlock => ({ kind: 'list', items });
export const fold = (title: string, blocks: readonly InnerBlock[]): FoldBlock => ({
  kind: 'fold',
  title,
  blocks,
});
export const beside = (pieces: BesideBlock['pieces']): BesideBlock => ({ kind: 'beside', pieces });

/** @param look how it is set, such as `prose` for long texts in cells */
export function tableOf(
  caption: string,
  columns: TableBlock['columns'],
  rows: TableBlock['rows'],
  look: TableLook = {},
): TableBlock {
  return { kind: 'table', caption, columns, rows, ...look };
}

export type TableLook = Pick<TableBlock, 'prose' | 'wide' | 'quoted'>;
