/** Properties draw the same cases in every run; `PROPERTY_SEED=<whole number>` draws others, to look further. */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20261125) });
