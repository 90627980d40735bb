/**
 * How eagerly V8's optimizing compiler works: what it inlines (in bytes of bytecode, default 920) and how much a function
 * runs before it is compiled anew (default 67,584 bytes executed). These limits are read whenever a function is looked at;
 * they change no result, only speed. Called before the work begins; they hold for all threads.
 */
import { setFlagsFromString } from 'node:v8';

/** For long simulations, whose hot path is many small functions: about 1.4 times the events per second. */
export function compileMore(): void {
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=3000');
}

/** For a second of many kinds of work, of which few last long enough to repay much compiling: a seventh less time. */
export function compileLess(): void {
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=200');
  // Later engines have compilers between, know no such limit, and complain of it.
  if (Number(process.versions.node.split('.')[0]) < 22) setFlagsFromString('--interrupt-budget=200000');
}
