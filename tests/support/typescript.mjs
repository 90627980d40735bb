/** For `node --import`: reads TypeScript from here on. The threads of the program run what was built, and need it not. */
import { register } from 'node:module';
import { isMainThread } from 'node:worker_threads';

if (isMainThread) register('./typescript-hooks.mjs', import.meta.url);
