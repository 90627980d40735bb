#!/usr/bin/env node
/** The command as started from a shell. */
import type { Io } from './io.js';
import { runProgram } from './run-program.js';

// A reader that goes away, such as `head`, is no fault.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });

const io: Io = {
  stdout: (text) => void process.stdout.write(text),
  stderr: (text) => void process.stderr.write(text),
  cwd: process.cwd(),
  isTTY: process.stdout.isTTY === true,
  isErrorTTY: process.stderr.isTTY === true,
  columns: process.stdout.columns,
  env: process.env,
  platform: process.platform,
  // Once only: a second Ctrl-C ends the program as usual.
  onInterrupt: (stop) => {
    process.once('SIGINT', stop);
    return () => void process.removeListener('SIGINT', stop);
  },
};

// Setting the status and letting the process end by itself lets all output through.
process.exitCode = await runProgram(process.argv.slice(2), io);
