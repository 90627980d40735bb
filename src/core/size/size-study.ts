/**
 * Sizing with stops and scatter beside the steady figures: each row is simulated under the same luck, and the number
 * of machines is chosen again from what the simulation yields.
 */

import { isCallRule, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import { chosenProgram } from '../shifts/best-program.js';
import type { SimulateContext, SimulateOptions } from '../simulate/simulation-options.js';
import { pairedDifference } from '../statistics/mean-interval.js';
import type { Stage } from './copies.js';
import { type GrownCell, grownCell, machinesText, type SizeOptions } from './grown-cell.js';
import { earnedText, named, type Recommendation, recommendMachines } from './recommend.js';
import { type SimulatedRow, type SimulatedStage, simulateStage } from './simulated-row.js';
import { type SizeResult, sizeResult } from './size-cell.js';
import { MOVED_INPUTS, movesOf } from './size-moves.js';
import { costPerHour, type RowContext, type SizeRow } from './size-row.js';
import type { CellSolver } from './size-search.js';

export interface StudiedRow extends SizeRow {
  /** Absent where the row was not simulated; `simulation` says why. */
  readonly simulated?: SimulatedRow;
}

/** The choice from the simulated rows. */
export interface ChoiceWithStops {
  readonly recommended: Recommendation;
  /** Another number than without stops. */
  readonly differs: boolean;
  /** Where it differs: whether these runs show it clearly better than the number chosen without stops. */
  readonly clear: boolean;
  readonly text: string;
}

export interface SizeSimulation {
  /** null where the rows were not simulated; then `reason` says why. */
  readonly program: Program | null;
  readonly reason: string | null;
  readonly seed: number | null;
  readonly hours: number | null;
}

export interface SizeStudy extends SizeResult {
  readonly rows: readonly StudiedRow[];
  readonly simulation: SizeSimulation;
  /** null where the rows were not simulated. */
  readonly withStops: ChoiceWithStops | null;
}

/** How the rows are simulated. */
export type RowSimulation = Pick<SimulateOptions, 'seed' | 'replications' | 'hours'>;

const DEFAULT_SEED = 1;
const DEFAULT_HOURS = 40;
/** The program that needs no sequence. */
const PLAIN: Program = 'first';

/**
 * @param simulation null to leave the simulation out
 * @throws RangeError as sizeCell
 */
export async function sizeStudy(
  options: SizeOptions,
  solve: CellSolver,
  simulation: RowSimulation | null,
  context: SimulateContext = {},
): Promise<SizeStudy> {
  const { onProgress, ...where } = context;
  const { onRow, onMoved, onSimulated } = sizeSteps(onProgress);
  const grown = grownCell({ ...options, onRow }, solve);
  const result = sizeResult(options, grown, movesOf(options, grown, solve, onMoved));
  return withSimulation(result, grown, await simulatedRows(grown, simulation, where, onSimulated));
}

/** The rows simulated, each beside its row of the table; or why they were not. */
export type SimulatedRows =
  | { readonly reason: string }
  | {
      readonly reason: null;
      readonly program: Program;
      readonly stages: readonly SimulatedStage[];
      readonly seed: number;
      readonly hours: number;
    };

/**
 * @param simulation null to leave the simulation out
 * @param onSimulated called after each row with its machines
 */
export async function simulatedRows(
  grown: GrownCell,
  simulation: RowSimulation | null,
  context: SimulateContext = {},
  onSimulated: (machines: number) => void = () => undefined,
): Promise<SimulatedRows> {
  if (simulation === null) return { reason: 'The rows were not simulated, as asked.' };
  const reason = whyNot(grown);
  if (reason !== null) return { reason };
  const asked = simulateOptions(grown, simulation);
  const { program, stages } = await simulateStages(grown, asked, context, onSimulated);
  return { reason: null, program, stages, seed: asked.seed!, hours: asked.hours! };
}

/** The answer with its rows simulated. */
export function withSimulation(result: SizeResult, grown: GrownCell, simulated: SimulatedRows): SizeStudy {
  if (simulated.reason !== null) {
    const { reason } = simulated;
    return { ...result, simulation: { program: null, reason, seed: null, hours: null }, withStops: null };
  }
  const { program, stages, seed, hours } = simulated;
  const rows = result.rows.map((row, i): StudiedRow => {
    const studied = stages[i]?.row ?? null;
    return studied === null ? row : { ...row, simulated: studied };
  });
  return {
    ...result,
    rows,
    simulation: { program, reason: null, seed, hours },
    withStops: choiceWithStops(grown, rows, stages, program),
    assumptions: [...result.assumptions, ...assumptionsOf(grown, program)],
    warnings: [...result.warnings, ...warningsOf(rows, stages)],
  };
}

function whyNot({ recommended, stages }: GrownCell): string | null {
  const cell = stages.at(-1)?.cell;
  if (cell === undefined || recommended === null) return 'There is no row to simulate.';
  return isSteady(cell)
    ? 'No stops and no variation are given: nothing in these rows is random, so they were not simulated.'
    : null;
}

/** Nothing in the cell is random and nothing stops. */
function isSteady(cell: Cell): boolean {
  const varies = cell.variation.some(
    (v) => v.distribution !== 'constant' && v.element !== 'repair' && v.element !== 'response',
  );
  return !varies && cell.stops.length === 0 && cell.stations.every((s) => s.mtbfH === null);
}

type StageOptions = Omit<SimulateOptions, 'program'>;

function simulateOptions({ context }: GrownCell, simulation: RowSimulation): StageOptions {
  return {
    seed: DEFAULT_SEED,
    hours: DEFAULT_HOURS,
    ...simulation,
    shiftHours: context.shiftH,
  };
}

/**
 * All rows run under one program, so that they can be compared: the one that the cell takes at the number chosen without
 * stops, or the plain answer to calls where that makes more once there are stops.
 */
async function simulateStages(
  grown: GrownCell,
  options: StageOptions,
  context: SimulateContext,
  onSimulated: (machines: number) => void,
): Promise<{ program: Program; stages: SimulatedStage[] }> {
  const { recommended, stages, schedules } = grown;
  const run = (i: number, program: Program): Promise<SimulatedStage> =>
    simulateStage(stages[i]!, schedules[i]!, program, options, context, grown.context);
  const at = stages.findIndex((s) => s.machines.length === recommended!.machines);
  const chosen = chosenProgram(stages[at]!.cell, schedules[at]!, grown.context.pattern, 'best');
  const tried = [await run(at, chosen)];
  if (chosen !== PLAIN) tried.push(await run(at, PLAIN));
  const isPlain = yieldOf(tried.at(-1)!) > yieldOf(tried[0]!);
  const program = isPlain ? PLAIN : chosen;
  const all: SimulatedStage[] = [];
  for (const [i, { machines }] of stages.entries()) {
    all.push(i === at ? tried[isPlain ? 1 : 0]! : await run(i, program));
    onSimulated(machines.length);
  }
  return { program, stages: all };
}

function yieldOf({ row }: SimulatedStage): number {
  return row?.partsPerShift.mean ?? -1;
}

function choiceWithStops(
  { recommended: steady, stages, context, maxWaitPct, owned }: GrownCell,
  rows: readonly StudiedRow[],
  simulated: readonly SimulatedStage[],
  program: Program,
): ChoiceWithStops | null {
  const sound = rows.flatMap((row, i) => {
    const { simulated: figures } = row;
    if (figures === undefined) return [];
    const partsPerH = figures.partsPerShift.mean / simulated[i]!.shiftH;
    // A robot that goes where it is called leaves no machine out.
    const machinesUsed = isCallRule(program) ? row.machines : row.machinesUsed;
    const means = {
      partsPerShift: figures.partsPerShift.mean,
      costPerPart: figures.costPerPart?.mean ?? null,
    };
    // What waits for the next place in the best sequence does so here as well.
    const waitBusyPct = Math.max(0, figures.waitRobotPct - (row.waitRobotPct - row.waitBusyPct));
    return [{ ...row, ...figures, ...means, machinesUsed, partsPerH, waitBusyPct }];
  });
  if (sound.length === 0) return null;
  const { currency } = context;
  const recommended = recommendMachines(sound, { maxWaitPct, owned, currency });
  const before = steady!.machines;
  const chosen = sound.find((row) => row.machines === recommended.machines)!;
  const differs = recommended.machines !== before;
  const at = (machines: number): number => rows.findIndex((row) => row.machines === machines);
  const clear =
    differs &&
    isClearlyBetter(at(recommended.machines), at(before), { rows, stages, simulated, context }, recommended);
  return {
    recommended,
    differs,
    clear,
    text: choiceText(chosen, recommended, { before, clear, currency, program }),
  };
}

interface Figures {
  readonly rows: readonly StudiedRow[];
  readonly stages: readonly Stage[];
  readonly simulated: readonly SimulatedStage[];
  readonly context: RowContext;
}

/** Run by run under the same luck; an interval that holds 0 shows no difference. Waiting is a limit, not a gain. */
function isClearlyBetter(a: number, b: number, figures: Figures, { measure }: Recommendation): boolean {
  if (measure === 'waiting for the robot' || b < 0) return true;
  const worth = (i: number): readonly number[] | null => worthByRun(i, figures, measure);
  const [better, worse] = [worth(a), worth(b)];
  if (better === null || worse === null || better.length < 2) return false;
  return pairedDifference(better, worse, 0.95).ciLow > 0;
}

/** Contribution an hour (at the mean contribution of a part of the row), or less the cost of a part. */
function worthByRun(
  i: number,
  { rows, stages, simulated, context }: Figures,
  measure: Recommendation['measure'],
): readonly number[] | null {
  const figures = rows[i]!.simulated;
  const { partsByReplication, shiftH } = simulated[i]!;
  if (figures === undefined) return null;
  const costPerH = costPerHour(stages[i]!.cell, context);
  if (measure === 'cost per part')
    return partsByReplication.map((parts) => -(costPerH * shiftH) / Math.max(1e-9, parts));
  const earned = (figures.contributionPerH! + costPerH) * shiftH;
  const each = earned / Math.max(1e-9, figures.partsPerShift.mean);
  return partsByReplication.map((parts) => (parts * each) / shiftH - costPerH);
}

/** @param row of the choice, its figures those of the simulation */
function choiceText(
  row: SizeRow,
  { measure, reason }: Recommendation,
  {
    before,
    clear,
    currency,
    program,
  }: { before: number; clear: boolean; currency: string; program: Program },
): string {
  const count = (n: number): string => (n === 1 ? 'one machine' : `${n} machines`);
  const parts = `${row.partsPerShift.toFixed(1)} good parts a shift`;
  if (row.machines === before)
    return `With downtime and variation (robot program \`${program}\`) also ${count(before)}: ${parts}${worthText(row, measure, currency)}.`;
  const doubt = clear
    ? ''
    : ` These runs show no clear difference in ${measure === 'cost per part' ? 'cost per part' : 'margin'}.`;
  return `With downtime and variation (robot program \`${program}\`) the choice is ${count(row.machines)} with ${parts}, not ${count(before)}. ${reason}${doubt}`;
}

function worthText(row: SizeRow, measure: Recommendation['measure'], currency: string): string {
  if (measure === 'contribution per hour') return `, margin ${earnedText(row, currency)}`;
  return measure === 'cost per part' ? ` at ${row.costPerPart!.toFixed(2)}${named(currency)} each` : '';
}

function assumptionsOf({ context }: GrownCell, program: Program): string[] {
  const week = context.pattern === null ? 'day and night' : `in the week of the pattern ${context.pattern}`;
  return [`Simulated rows: robot program \`${program}\`, ${week}; every row has the same random numbers.`];
}

function warningsOf(rows: readonly StudiedRow[], stages: readonly SimulatedStage[]): string[] {
  const locked = rows.filter((row) => row.simulated === undefined).map((row) => row.machines);
  const lockedText =
    locked.length === 0
      ? []
      : [
          `With ${machinesText(locked)} the simulation locked up or made nothing, so these rows have no simulated figures.`,
        ];
  const each = new Map<string, number[]>();
  for (const [i, { warnings }] of stages.entries())
    for (const text of warnings) each.set(text, [...(each.get(text) ?? []), rows[i]!.machines]);
  const said = [...each].map(([text, machines]) =>
    machines.length === rows.length ? text : `With ${machinesText(machines)}, simulated: ${text}`,
  );
  return [...lockedText, ...said];
}

interface SizeSteps {
  readonly onRow: (machines: number, most: number) => void;
  readonly onMoved: (inputs: number) => void;
  readonly onSimulated: (machines: number) => void;
}

/** @param onProgress never goes back; the last steps may be left out */
function sizeSteps(onProgress: (done: number, planned: number) => void = () => undefined): SizeSteps {
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
