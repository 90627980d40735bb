/** How a text is to look where it is shown; renderers take it and ask nothing else of the world. */

export interface TextStyle {
  readonly colour: boolean;
  /** Characters across; tables and charts keep within it. */
  readonly columns: number;
  /** Plain characters only, for a terminal that cannot show others. */
  readonly ascii: boolean;
  /** Every table and note; without it the answer and what carries it. */
  readonly full?: boolean;
  /** The activity chart too. */
  readonly chart?: boolean;
}

/** For files and pipes: 80 characters across, no colour. */
export const plainStyle: TextStyle = { colour: false, columns: 80, ascii: false };
