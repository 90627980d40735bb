/** For `node --import`: reads TypeScript from here on. */
import { register } from 'node:module';

register('./typescript-hooks.mjs', import.meta.url);
