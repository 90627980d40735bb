// Ends what a fault makes endless, and says at once that a property fails. Stryker waits for a hundred times as many turns as
// without the fault, which on numbers that grow with every turn takes minutes; here a faulty place may work for some
// seconds of the processor's time, however busy the machine is.
import fc from 'fast-check';
import { vi } from 'vitest';

/** The program is read anew, so that nothing that a fault worked out is kept for the next one. */
vi.resetModules();

/** Without looking for the smallest case that fails. */
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });

const LONGEST_S = Number(process.env.MUTANT_SECONDS ?? 4);
const TURNS_BETWEEN_LOOKS = 32;

const counters = globalThis.__stryker__;
const processorS = () => process.cpuUsage().user / 1e6;
let turns;
let beganS = 0;

if (counters !== undefined && !Object.getOwnPropertyDescriptor(counters, 'hitCount')?.set)
  Object.defineProperty(counters, 'hitCount', {
    get: () => turns,
    set: (value) => {
      turns = value;
      if (value === 0) beganS = processorS();
      else if (value % TURNS_BETWEEN_LOOKS === 0 && processorS() - beganS > LONGEST_S)
        turns = Number.MAX_SAFE_INTEGER;
    },
  });
