// Runs once around all test files: a folder for what they share, taken away after the last.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    readonly sharedFolder: string;
  }
}

export default function sharedFolder(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'roundsman-shared-'));
  project.provide('sharedFolder', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
