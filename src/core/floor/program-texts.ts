/** What each program of the robot does, in words for tables and lists. */
import type { Program } from './robot.js';

export const PROGRAM_TEXTS: Readonly<Record<Program, string>> = {
  order: 'the best sequence, passing over what is stopped, in changeover, out of parts or full (`order`)',
  strict: 'the best sequence, waiting at each act whatever happens (`strict`)',
  first: 'first come, first served (`first`)',
  nearest: 'the nearest call (`nearest`)',
  longest: 'the call of the longest cycle (`longest`)',
};
