/** The empty page: three questions that make a first cell, or a cell from elsewhere. */
import { useState } from 'preact/hooks';
import { exampleDesk } from '../shell/carried.js';
import { OpenButtons } from '../shell/open-buttons.js';
import { act, openDesk } from '../state/store.js';
import { ASSUMED, cyclesOf, firstCell, secondsOf } from './first-cell.js';
import { SavedCells } from './saved-offer.js';

export function StartPanel() {
  return (
    <section class="start" aria-labelledby="start-title">
      <h2 id="start-title">How much does one robot make with several machines?</h2>
      <p>Answer three questions for a first cell. Every figure can be changed afterwards.</p>
      <Questions />
      <SavedCells />
      <h3>Or open a cell that you have</h3>
      <p class="buttons">
        <OpenButtons />
        <button type="button" onClick={() => openDesk(exampleDesk(), 'The example cell is open.')}>
          Look at the example cell
        </button>
      </p>
    </section>
  );
}

function Questions() {
  const [fault, setFault] = useState('');
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const text = (name: string): string => String(form.get(name) ?? '');
    const cyclesS = cyclesOf(Number(text('machines')), text('cycles'));
    const [loadS, unloadS] = [secondsOf(text('load')), secondsOf(text('unload'))];
    const found =
      typeof cyclesS === 'string'
        ? cyclesS
        : loadS === null || unloadS === null
          ? 'Give the robot’s time to load and to unload a machine in seconds, such as 12.'
          : '';
    setFault(found);
    if (typeof cyclesS === 'string' || loadS === null || unloadS === null) return;
    const said = `A first cell: places and a robot speed of ${ASSUMED.speedMS} m/s are assumed; put yours in.`;
    act((desk) => ({ ...desk, tables: firstCell({ cyclesS, loadS, unloadS }) }), said);
  };
  return (
    <form class="questions" onSubmit={submit} noValidate>
      <label>
        1. How many machines does the robot tend?
        <input name="machines" inputMode="numeric" defaultValue="3" />
      </label>
      <label>
        2. Machine cycle in seconds: one for all, or one for each
        <input name="cycles" inputMode="text" defaultValue="240" aria-describedby="start-fault" />
      </label>
      <fieldset>
        <legend>3. Robot time at a machine in seconds</legend>
        <label>
          to load <input name="load" inputMode="decimal" defaultValue="12" />
        </label>
        <label>
          to unload <input name="unload" inputMode="decimal" defaultValue="10" />
        </label>
      </fieldset>
      <p class="fault" id="start-fault" role="alert">
        {fault}
      </p>
      <button type="submit" class="main">
        Make the cell
      </button>
    </form>
  );
}
