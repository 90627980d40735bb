/** `simulate`: what real weeks yield, with stops, scatter and people. */

import { Option } from 'commander';
import { isCallRule, type Program } from '../../core/floor/robot.js';
import type { Cell } from '../../core/model/cell.js';
import {
  type ProgramStudyOptions,
  programStudyOptions,
  type SimulateStudy,
} from '../../core/simulate/study-programs.js';
import { closedForm } from '../../core/size/closed-form.js';
import { machineTimes } from '../../core/size/machine-times.js';
import { runStudy, type SimulateStudyOptions, studies } from '../../core/studies/studies.js';
import type { StudyContext, StudyInputs } from '../../core/studies/study-inputs.js';
import { SIMULATION_TABLES, simulationTables } from '../../render/result-tables/simulation-tables.js';
import {
  type Explanation,
  renderSimulation,
  type SimulationView,
  simulationSentences,
} from '../../render/simulate.js';
import { quantities } from '../../tables/quantities.js';
import { replicationsOn } from '../../workers/replications.js';
import { workPool } from '../../workers/work-pool.js';
import { WAY_CHOICES, wayOption, waysAsked } from '../asked-ways.js';
import { type CellAnswer, cellAnswer, withHands } from '../cell-answer.js';
import { type CommandBody, numberOf, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { momentOption } from '../moment-option.js';
import { ON_THIS_THREAD } from '../on-pool.js';
import {
  csvFormAsked,
  handsOption,
  numberOption,
  replicationsOption,
  runHoursOption,
  seedOption,
  workersOption,
} from '../option-values.js';
import { patternOf } from '../pattern-option.js';
import { programOption } from '../program-option.js';
import { liveProgress } from '../progress.js';
import { searched, withSchedule } from '../schedule-outcome.js';
import { type LogWritten, writeRunLog } from '../write-run-log.js';

export const simulateCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [
    handsOption(),
    programOption(),
    wayOption(WAY_CHOICES),
    new Option(
      '--pattern <name>',
      'shift pattern to run; default: the first of shifts.csv, else day and night',
    ),
    runHoursOption(),
    replicationsOption('runs; with --precision-pct the most of them; default 20, or 1000'),
    numberOption(
      '--precision-pct <percent>',
      'go on until the 95% confidence interval of the mean of good parts is this narrow: percent of the mean to either side',
      quantities.perCentAbove0,
    ),
    seedOption(),
    workersOption('threads to run on; default: all cores; they change no result'),
    new Option(
      '--log <file>',
      'write the first run into this file as a log of signals, such as `log` reads; it starts from an empty cell',
    ),
    momentOption(
      '--log-start <moment>',
      'write the times of --log as moments; this is its first Monday 00:00, such as 2026-10-19T00:00:00+02:00; without it, seconds',
    ),
    new Option('--explain', 'print the closed forms of machine interference beside, with what they assume'),
  ],
  writes: { option: 'log', kind: 'file' },
  tables: SIMULATION_TABLES,
  examples: ['simulate my-cell', 'simulate my-cell --dispatch first --replications 5 --explain'],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, async (open) => {
      const { cell, assumptions } = withHands(open.cell, numberOf(values, 'hands'));
      const pattern = patternOf(cell, values.pattern as string | undefined);
      const asked = values.dispatch as Program | undefined;
      const outcome = asked !== undefined && isCallRule(asked) ? null : searched(cell, io);
      if (outcome !== null && asked !== undefined && !('order' in outcome))
        return withSchedule(outcome, open, () => ({
          exit: EXIT.infeasible,
          fields: {},
          text: () => '',
        }));
      const order = outcome !== null && 'order' in outcome ? outcome : null;
      const options = studyOptions(cell, values, io);
      const form = csvFormAsked(values, open.csvForm);
      const { against: _, ...oneProgram } = programStudyOptions(cell, order, pattern, options);
      const log = await writeRunLog(cell, oneProgram, { values, io, form });
      const study = await simulated({ cell, schedule: order }, { ...options, pattern }, values, io);
      if (study === null) return stoppedAnswer();
      const explanation = values.explain === true ? explain(cell) : null;
      const notes = asked === undefined && order === null ? [NO_SEQUENCE] : [];
      return answerOf({ study, pattern, explanation }, log, assumptions, notes);
    }),
};

const NO_SEQUENCE =
  'No repeating sequence was found, so only programs that answer calls are simulated; `schedule` says why.';

function studyOptions(cell: Cell, values: OptionValues, io: Io): ProgramStudyOptions {
  const program = values.dispatch as Program | undefined;
  return {
    ...numbersOf(values, {
      hours: 'hours',
      replications: 'replications',
      halfWidthPct: 'precisionPct',
      seed: 'seed',
    }),
    ...(program === undefined ? {} : { program }),
    floor: waysAsked(cell, values, io),
  };
}

/** Always on threads, even with one, so that Ctrl-C is heard; null where it came before the first run was done. */
async function simulated(
  inputs: StudyInputs,
  options: SimulateStudyOptions,
  values: OptionValues,
  io: Io,
): Promise<SimulateStudy | null> {
  const pool = workPool(numbersOf(values, { workers: 'workers' }));
  const stop = new AbortController();
  const takeBack = io.onInterrupt?.(() => stop.abort());
  const progress = liveProgress(io);
  const context: StudyContext = {
    ...ON_THIS_THREAD,
    run: replicationsOn(pool),
    signal: stop.signal,
    onProgress: (done, planned) => progress.show(`Simulating: ${done} of ${planned} runs`),
  };
  try {
    return await runStudy('simulate', inputs, options, context);
  } catch (error) {
    if (stop.signal.aborted) return null;
    throw error;
  } finally {
    progress.end();
    takeBack?.();
    await pool.close();
  }
}

function stoppedAnswer(): CellAnswer {
  const reason = 'The simulation was stopped before its first run was done, so there is nothing to show.';
  return {
    exit: EXIT.limitReached,
    fields: { status: 'stopped', reason },
    text: () => `${reason}\n`,
  };
}

export function explain(cell: Cell): Explanation {
  const found = machineTimes(cell);
  if (found.times === null) return { closedForm: null, reason: found.reason };
  const machines = cell.stations.filter((s) => s.kind === 'machine').length;
  return {
    closedForm: closedForm(found.times, [machines], { robotPerH: 0, machinePerH: 0 }),
    alike: found.alike,
  };
}

function answerOf(
  view: SimulationView,
  log: LogWritten | null,
  notes: readonly string[],
  more: readonly string[],
): CellAnswer {
  const { result } = view.study;
  const { assumptions, warnings } = result;
  const incomplete = result.complete
    ? []
    : ['The work was stopped early; the figures are of the runs done by then.'];
  return {
    exit: result.deadlock !== null ? EXIT.infeasible : result.complete ? EXIT.done : EXIT.limitReached,
    bestSoFar: result.deadlock === null && !result.complete,
    fields: {
      ...studies.simulate.fields({ ...view.study, pattern: view.pattern }),
      ...(view.explanation === null ? {} : { explanation: view.explanation }),
      ...(log === null ? {} : { log }),
    },
    text: (style) => `${renderSimulation(view, style)}${logText(log)}`,
    tables: () => ({
      sentences: simulationSentences(view),
      tables: simulationTables(view.study),
    }),
    assumptions: [...notes, ...assumptions, ...more],
    warnings: [...incomplete, ...warnings],
  };
}

function logText(log: LogWritten | null): string {
  if (log === null) return '';
  return `\nWritten: ${log.file}, ${log.records} records of ${log.hours} open hours.\n`;
}
