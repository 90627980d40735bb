// The check values of a subject: the published ones and those worked out from first principles.
import { existsSync, readFileSync } from 'node:fs';

/** `published`: printed in a book, standard, paper or on an official site; the others are our own working, or from memory. */
export const BASES = ['published', 'derived', 'recomputed', 'from memory, recomputed'] as const;

export interface ReferenceCheck {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: unknown;
  readonly tolerance: number;
  readonly basis: (typeof BASES)[number];
  readonly source: string;
}

const KINDS = ['published', 'recomputed'] as const;
export type ReferenceKind = (typeof KINDS)[number];

/** @param name of the file, without its ending */
export function readReference(kind: ReferenceKind, name: string): unknown {
  return JSON.parse(readFileSync(new URL(`../reference/${kind}/${name}.json`, import.meta.url), 'utf8'));
}

/** All checks of a subject, in the form that a test works with. */
export function referenceChecks<T = ReferenceCheck>(name: string): readonly T[] {
  const kinds = KINDS.filter((kind) =>
    existsSync(new URL(`../reference/${kind}/${name}.json`, import.meta.url)),
  );
  if (kinds.length === 0) throw new Error(`there are no check values of ${name}`);
  return kinds.flatMap((kind) => (readReference(kind, name) as { checks: readonly T[] }).checks);
}
