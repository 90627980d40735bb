/**
 * The worker of the robot's sequence alone: small, so that it starts at once. The page ends it when the cell has changed
 * and it is still busy.
 */
import type { Asked, Said } from './messages.js';
import { sayRates } from './rate-stages.js';
import { sayAll } from './worked.js';

const say = (said: Said): void => postMessage(said);

self.addEventListener('message', ({ data: asked }: MessageEvent<Asked>) => {
  void sayAll(asked, say, () => sayRates(asked, say));
});
