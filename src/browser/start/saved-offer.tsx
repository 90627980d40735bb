/** Offers what was on the page when it was last left. */
import { useState } from 'preact/hooks';
import { otherSaved, savedDesks } from '../shell/autosave.js';
import type { Desk } from '../state/desk.js';
import { desk, openDesk } from '../state/store.js';

/** On an empty page: every cell that this browser kept. */
export function SavedCells() {
  const [saved] = useState(savedDesks);
  if (saved.length === 0) return null;
  return (
    <div class="offer">
      <h3>Go on where you left off</h3>
      <p class="buttons">
        {saved.map((one) => (
          <button key={one.name} type="button" onClick={() => goOn(one)}>
            Go on with {one.name}
          </button>
        ))}
      </p>
      <p class="note">This browser kept these cells from the last time; they are nowhere else.</p>
    </div>
  );
}

/** On a page that came with a cell: what was changed in it the last time. */
export function SavedChanges() {
  const [saved, setSaved] = useState(() => otherSaved(desk.value));
  if (saved === null) return null;
  return (
    <p class="offer buttons">
      <span>This browser kept your changes to {saved.name} from the last time.</span>
      <button
        type="button"
        onClick={() => {
          setSaved(null);
          goOn(saved);
        }}
      >
        Go on with them
      </button>
      <button type="button" class="plain" onClick={() => setSaved(null)}>
        Leave them
      </button>
    </p>
  );
}

function goOn(saved: Desk): void {
  openDesk(saved, `${saved.name} is open again.`);
}
