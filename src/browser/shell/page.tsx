/** The page as a whole: what the cell is on one side, what it makes on the other. */
import { AnswersPanel } from '../answers/answers-panel.js';
import { RateLine } from '../answers/rate-line.js';
import { CellPanel } from '../grid/cell-panel.js';
import { SavedChanges } from '../start/saved-offer.js';
import { StartPanel } from '../start/start-panel.js';
import { isEmpty } from '../state/desk.js';
import { act, canRedo, canUndo, desk, redo, undo } from '../state/store.js';
import { OpenButtons } from './open-buttons.js';
import { SaveMenu } from './save-menu.js';
import { StatusLine } from './status-line.js';

export function Page() {
  const isStart = isEmpty(desk.value);
  return (
    <div class="page">
      <header>
        <h1>
          {isStart ? (
            'One robot, several machines'
          ) : (
            <input
              class="name"
              aria-label="Name of the cell"
              value={desk.value.name}
              onChange={({ currentTarget: { value } }) => rename(value.trim())}
            />
          )}
        </h1>
        {!isStart && <Tools />}
      </header>
      <StatusLine />
      {isStart ? (
        <main>
          <StartPanel />
        </main>
      ) : (
        <main>
          <SavedChanges />
          <RateLine />
          <div class="sides">
            <CellPanel />
            <AnswersPanel />
          </div>
        </main>
      )}
      <footer>
        <p class="note">
          Nothing leaves this machine: the page’s security policy lets it reach no network. The figures are
          estimates for a decision; they replace neither a risk assessment by competent people nor local
          rules.
        </p>
      </footer>
    </div>
  );
}

function Tools() {
  return (
    <p class="tools buttons">
      <button type="button" disabled={!canUndo.value} onClick={undo}>
        Undo
      </button>
      <button type="button" disabled={!canRedo.value} onClick={redo}>
        Redo
      </button>
      <OpenButtons />
      <SaveMenu />
    </p>
  );
}

function rename(name: string): void {
  if (name !== '') act((now) => (now.name === name ? now : { ...now, name }), `The cell is named ${name}.`);
}
