/**
 * Rows of tables that were read without a complaint, for callers that read the same tables over and over with small
 * changes. Rows are remembered together with the texts that they depend on.
 */
export interface TableMemory {
  /** The rows read from these texts before, or null. */
  readonly recall: (file: string, texts: readonly unknown[]) => readonly unknown[] | null;
  readonly keep: (file: string, texts: readonly unknown[], rows: readonly unknown[]) => void;
}

/** Remembers the last reading of each table. */
export function tableMemory(): TableMemory {
  const last = new Map<string, { texts: readonly unknown[]; rows: readonly unknown[] }>();
  return {
    recall: (file, texts) => {
      const known = last.get(file);
      return known?.texts.every((text, i) => text === texts[i]) ? known.rows : null;
    },
    keep: (file, texts, rows) => {
      last.set(file, { texts, rows });
    },
  };
}
