/** Properties draw the same cases in every run; `PROPERTY_SEED=<whole number>` draws others, to look further. */
import fc from 'fast-check';
import { cases } from './size.js';

fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20261125), numRuns: cases(100) });
