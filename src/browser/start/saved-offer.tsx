/** Offers what was on the page when it was last left. */
import { useState } from 'preact/hooks';
import { savedDesk } from '../shell/autosave.js';
import { openDesk } from '../state/store.js';

export function SavedOffer() {
  const [saved] = useState(savedDesk);
  if (saved === null) return null;
  return (
    <p class="offer">
      This browser kept the cell “{saved.name}” from the last time.{' '}
      <button type="button" onClick={() => openDesk(saved, `${saved.name} is open again.`)}>
        Go on with it
      </button>
    </p>
  );
}
