/**
 * The worker of every question but the robot's sequence alone, and of what takes or gives files: says what it has as it
 * comes. The page ends it when the cell has changed.
 */
import { bestSchedule } from '../../core/schedule/best-schedule.js';
import { answers, compareAnswer, simulateAnswer } from './answers.js';
import { takeSolver } from './carried-solver.js';
import { doDeed } from './deeds.js';
import { keptRuns } from './kept-runs.js';
import type { Asked, Deed, Doing, Said, SolverSaid } from './messages.js';
import { sweepAnswer } from './sweep-answer.js';
import { saidOf, sayAll } from './worked.js';

/** Nodes of each search of a first line of a sweep. */
const FIRST_NODES = 500;
/** Runs of the answers of a simulation on the way, whose intervals are shown while the others run. */
const GROWING_RUNS = [4, 8, 14] as const;

const say = (said: Said): void => postMessage(said);

self.addEventListener('message', async ({ data }: MessageEvent<Asked | Deed | SolverSaid>) => {
  if ('solver' in data) {
    takeSolver(data.solver);
    return;
  }
  if ('deed' in data) {
    const tell = (done: number, of: number): void => postMessage({ doing: [done, of] } satisfies Doing);
    postMessage(await doDeed(data, tell));
    return;
  }
  await sayAll(data, say, () => answer(data));
});

async function answer(asked: Asked): Promise<void> {
  const { id, question, cell, files } = asked;
  const onProgress = (done: number, of: number): void => say({ id, kind: 'progress', question, done, of });
  const outcome = () => asked.found ?? bestSchedule(cell, { improvements: false });
  switch (question) {
    case 'schedule':
      throw new Error('the robot’s sequence has a worker of its own');
    case 'sweep':
      await answerSweep(asked, onProgress);
      return;
    case 'compare': {
      const named = [...(asked.others ?? []), { name: 'now', cell }];
      say(saidOf(asked, 'whole', await compareAnswer(named, onProgress)));
      return;
    }
    case 'simulate': {
      const [best, kept] = [outcome(), keptRuns()];
      for (const runs of GROWING_RUNS)
        say(saidOf(asked, 'first', await simulateAnswer(cell, best, kept, runs)));
      say(saidOf(asked, 'whole', await simulateAnswer(cell, best, { ...kept, onProgress })));
      return;
    }
  }
  say(saidOf(asked, 'whole', await answers[question]({ cell, files, outcome, onProgress })));
}

/** The line by short searches first, then by those that the command `sweep` makes. */
async function answerSweep(asked: Asked, progress: (done: number, of: number) => void): Promise<void> {
  const { swept } = asked;
  if (swept === undefined) return;
  say(saidOf(asked, 'first', await sweepAnswer(swept, FIRST_NODES, () => undefined)));
  say(saidOf(asked, 'whole', await sweepAnswer(swept, null, progress)));
}
