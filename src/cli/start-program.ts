/** Runs the command line of this process, on its own streams, to its exit status. */
import { systemReason } from '../files/system-reason.js';
import { EXIT } from './exit-codes.js';
import { faultText } from './fault-text.js';
import type { Io } from './io.js';
import { runProgram } from './run-program.js';

export async function startProgram(): Promise<void> {
  // A fault where nobody waits for the result, such as in a listener, must not show a trace either.
  process.on('uncaughtException', (error) => {
    process.stderr.write(faultText(error));
    process.exit(EXIT.wrongInput);
  });
  let lost = false;
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (lost || isReaderGone(error)) return;
    lost = true;
    process.stderr.write(`The answer cannot be printed: ${systemReason(error).text}.\n`);
    process.exitCode = EXIT.wrongInput;
  });
  // Where complaints cannot be printed there is no place to say so.
  process.stderr.on('error', () => undefined);
  const code = await runProgram(process.argv.slice(2), shellIo());
  // Setting the status and letting the process end by itself lets all output through.
  process.exitCode = lost ? EXIT.wrongInput : code;
}

/** A reader that goes away, such as `head`, is no fault: the work goes on to its own exit status. */
function isReaderGone({ code }: NodeJS.ErrnoException): boolean {
  return code === 'EPIPE' || code === 'ERR_STREAM_DESTROYED';
}

function shellIo(): Io {
  return {
    stdout: (text) => void process.stdout.write(text),
    stderr: (text) => void process.stderr.write(text),
    cwd: process.cwd(),
    isTTY: process.stdout.isTTY === true,
    isErrorTTY: process.stderr.isTTY === true,
    columns: process.stdout.columns,
    env: process.env,
    platform: process.platform,
    onInterrupt,
  };
}

/** Signals closer together than this come of one Ctrl-C: the terminal and a program between both send it. */
const ONE_PRESS_MS = 2000;

/** A second Ctrl-C ends the program as usual. */
function onInterrupt(stop: () => void): () => void {
  let firstMs: number | null = null;
  const heard = (): void => {
    if (firstMs === null) {
      firstMs = Date.now();
      stop();
    } else if (Date.now() - firstMs > ONE_PRESS_MS) {
      takeBack();
      process.kill(process.pid, 'SIGINT');
    }
  };
  const takeBack = () => void process.removeListener('SIGINT', heard);
  process.on('SIGINT', heard);
  // The same press may still come once more.
  return () => (firstMs === null ? takeBack() : void setTimeout(takeBack, ONE_PRESS_MS).unref());
}
