/**
 * How far a sizing has come. Its steps: one for each machine of the table, one for each kind of input that may move the
 * answer, and one for each machine of the table again as its rows are simulated.
 */
import { MOVED_INPUTS } from './size-moves.js';

export interface SizeSteps {
  readonly onRow: (machines: number, most: number) => void;
  readonly onMoved: (inputs: number) => void;
  readonly onSimulated: (machines: number) => void;
}

/** @param onProgress never goes back; the last steps may be left out */
export function sizeSteps(onProgress: (done: number, planned: number) => void = () => undefined): SizeSteps {
  let rows = 0;
  const say = (done: number): void => onProgress(done, 2 * rows + MOVED_INPUTS.length);
  return {
    onRow: (machines, most) => {
      rows = most;
      say(machines);
    },
    onMoved: (inputs) => say(rows + inputs),
    onSimulated: (machines) => say(rows + MOVED_INPUTS.length + machines),
  };
}
