#!/usr/bin/env node
/** The command as started from a shell. It loads the rest itself, so that a part that is missing ends in a sentence. */
import { compileLater } from './compile-later.js';

compileLater();
try {
  const { startProgram } = await import('./start-program.js');
  await startProgram();
} catch (error) {
  process.stderr.write(
    `A part of the program is missing or cannot be loaded: ${error instanceof Error ? error.message : String(error)}\nInstall it anew, in its own folder with \`npm ci\`. Your tables are untouched.\n`,
  );
  process.exitCode = 1;
}
