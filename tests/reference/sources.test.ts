// Every check value says where it comes from: a work that a reader can look up, or how it was worked out.
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { BASES, type ReferenceCheck, type ReferenceKind, readReference } from '../support/reference.js';

const files = (kind: ReferenceKind): string[] =>
  readdirSync(new URL(`./${kind}`, import.meta.url)).map((name) => name.replace(/\.json$/, ''));
const checksOf = (kind: ReferenceKind): ReferenceCheck[] =>
  files(kind).flatMap((name) => (readReference(kind, name) as { checks?: ReferenceCheck[] }).checks ?? []);

describe.each(['published', 'recomputed'] as const)('%s', (kind) => {
  const checks = checksOf(kind);

  test('holds checks whose basis fits its name, each under a name of its own', () => {
    expect(checks.length).toBeGreaterThan(50);
    for (const { id, basis } of checks) {
      expect(BASES, id).toContain(basis);
      expect(basis === 'published', id).toBe(kind === 'published');
    }
    expect(new Set(checks.map((c) => c.id)).size).toBe(checks.length);
  });

  test('names a whole source for each', () => {
    for (const { id, source } of checks) {
      expect(source.length, id).toBeGreaterThan(4);
      expect(source, id).not.toMatch(
        /^same|\b(on|at|and|see)$|,$|not at hand|handout|lecture|github|\.com\b/i,
      );
      expect(source.split('(').length, id).toBe(source.split(')').length);
    }
  });

  test('a published value names a work with its author, number or year', () => {
    if (kind !== 'published') return;
    for (const { id, source } of checks)
      expect(source, id).toMatch(/\b(1[89]|20)\d\d\b|IRS Publication \d+|NIST/);
  });
});
