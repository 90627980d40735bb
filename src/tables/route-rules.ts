/** The rules that the steps of one part keep among themselves. */
import type { StationKind } from '../core/model/cell.js';
import type { Fault } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import type { KnownNames } from './known-names.js';
import { type RouteRow, stationsOf } from './route-columns.js';
import { reportCell, type Sheet } from './sheet.js';

type Kinds = KnownNames<StationKind | null>;
type Say = (row: RouteRow, column: string, code: Fault['code'], fault: () => Omit<Fault, 'code'>) => void;

/** @param isComplete every row of the part could be read, so that its first and last step are known */
export function checkRoute(
  sheet: Sheet,
  steps: readonly RouteRow[],
  kinds: Kinds,
  isComplete: boolean,
): void {
  const say: Say = (row, column, code, fault) => reportCell(sheet, row.row, column, code, fault);
  checkOrder(say, steps);
  for (const step of steps) checkAlternatives(say, step, kinds);
  for (const step of steps) checkLikeness(say, step, kinds);
  for (const step of steps) checkBatch(say, step, kinds);
  for (const step of steps) checkIdleTimes(say, step, kinds);
  if (isComplete) checkEnds(say, steps, kinds);
}

function checkOrder(say: Say, steps: readonly RouteRow[]): void {
  const seen = new Map<number, number>();
  let highest = Number.NEGATIVE_INFINITY;
  for (const row of steps) {
    const { step, part } = row.values;
    const line = seen.get(step);
    if (line !== undefined) say(row, 'step', 'ROU13', () => repeatedStep(step, part, line));
    else if (step < highest) say(row, 'step', 'ROU01', () => fallingStep(step, part, highest));
    seen.set(step, line ?? row.row.line);
    highest = Math.max(highest, step);
  }
}

function repeatedStep(step: number, part: string, line: number) {
  const text = `step ${step} of ${inBackticks(part)} is already given on line ${line}`;
  return {
    text,
    help: 'Give each step its own number; write alternatives in one row, such as `mill_1|mill_2`.',
  };
}

function fallingStep(step: number, part: string, before: number) {
  const text = `found step ${step} after step ${before} of ${inBackticks(part)}, expected steps that rise`;
  return { text, help: 'Set the rows of a part in the order in which it passes them.' };
}

/** Stations that may stand in for one another. */
function classOf(kind: StationKind): string {
  return kind === 'bench' || kind === 'buffer' ? 'machine' : kind;
}

function checkAlternatives(say: Say, row: RouteRow, kinds: Kinds): void {
  const [first, ...others] = row.values.stations;
  const kind = kinds?.get(first!.name);
  if (!kind) return;
  for (const { name, span } of others) {
    const other = kinds?.get(name);
    if (!other || classOf(other) === classOf(kind)) continue;
    say(row, 'stations', 'ROU05', () => ({
      text: `${inBackticks(name)} is a station of kind ${other} and ${inBackticks(first!.name)} one of kind ${kind}, expected alternatives of one kind`,
      help: 'Infeeds, outfeeds and held stations replace only their own kind; machines, benches and buffers for one another.',
      span,
    }));
  }
}

/** Machines, benches and buffers may stand in for one another, but rarely with the same times. */
function checkLikeness(say: Say, row: RouteRow, kinds: Kinds): void {
  const [first, ...others] = row.values.stations;
  const kind = kinds?.get(first!.name);
  if (!kind || row.values.cycle_s === 0) return;
  const unlike = others.find(({ name }) => {
    const other = kinds?.get(name);
    return other && other !== kind && classOf(other) === classOf(kind);
  });
  if (unlike === undefined) return;
  say(row, 'stations', 'ROU15', () => ({
    severity: 'warning',
    text: `${inBackticks(unlike.name)} is a ${kinds?.get(unlike.name)} and ${inBackticks(first!.name)} a ${kind}; both are taken with the same cycle_s, load_s and unload_s`,
    help: 'If their times differ, give each its own part or step.',
    span: unlike.span,
  }));
}

function kindOf(row: RouteRow, kinds: Kinds): StationKind | null {
  return kinds?.get(row.values.stations[0]!.name) ?? null;
}

/** Where parts come and go one at a time, and why. */
const ONE_AT_A_TIME: Partial<Record<StationKind, readonly [name: string, help: string]>> = {
  infeed: [
    'infeed',
    'The robot picks one part at a time; parts that a machine works on together are loaded at its step.',
  ],
  outfeed: [
    'outfeed',
    'The robot sets down one part at a time; parts that a machine works on together are loaded at its step.',
  ],
  held: ['held station', 'The robot holds one part at a time at a wheel or brush.'],
};

/** Parts in one cycle of a machine up to which robot cycles are worth a search. */
const LARGE_BATCH = 100;

function checkBatch(say: Say, row: RouteRow, kinds: Kinds): void {
  const count = row.values.parts_per_cycle;
  const kind = kindOf(row, kinds);
  const [name, help] = (kind !== null && ONE_AT_A_TIME[kind]) || [];
  if (count > 1 && name !== undefined && help !== undefined)
    say(row, 'parts_per_cycle', 'ROU11', () => ({
      text: `found ${count} parts at the ${name} ${stationsOf(row)}, expected 1`,
      help,
    }));
  else if (count > LARGE_BATCH)
    say(row, 'parts_per_cycle', 'ROU18', () => ({
      severity: 'warning',
      text: `found ${count} parts in one cycle of ${stationsOf(row)}; with more than ${LARGE_BATCH} \`schedule\` takes long and proves little`,
      help: 'Enter a basket of them as one part, with the times of the whole basket.',
    }));
}

function checkIdleTimes(say: Say, row: RouteRow, kinds: Kinds): void {
  const kind = kindOf(row, kinds);
  if (kind !== 'infeed' && kind !== 'outfeed') return;
  const { load_s: loadS, unload_s: unloadS, max_wait_s: maxWaitS } = row.values;
  const [column, action, foundS] =
    kind === 'infeed' ? (['load_s', 'place', loadS] as const) : (['unload_s', 'pick', unloadS] as const);
  if (foundS > 0)
    say(row, column, 'ROU09', () => ({
      severity: 'warning',
      text: `found ${column} ${foundS} at the ${kind} ${stationsOf(row)}, where the robot does not ${action}; 0 is taken`,
      help: 'Leave the cell empty.',
    }));
  if (maxWaitS !== null)
    say(row, 'max_wait_s', 'ROU19', () => ({
      severity: 'warning',
      text: `found max_wait_s ${maxWaitS} at the ${kind} ${stationsOf(row)}, where no wait is limited; it is not used`,
      help: 'Leave the cell empty: a longest wait counts from the end of the work at a machine, a bench or a buffer.',
    }));
}

function checkEnds(say: Say, steps: readonly RouteRow[], kinds: Kinds): void {
  const first = steps[0]!;
  const last = steps.at(-1)!;
  if (first === last) {
    say(first, 'step', 'ROU08', () => oneStep(first.values.part));
    return;
  }
  checkEnd(say, first, kinds, 'infeed');
  checkEnd(say, last, kinds, 'outfeed');
  for (const row of steps.slice(1, -1)) checkMiddle(say, row, kinds);
}

function oneStep(part: string) {
  const text = `${inBackticks(part)} has one step, expected at least two`;
  return { text, help: 'A route leads from an infeed to an outfeed.' };
}

function checkEnd(say: Say, row: RouteRow, kinds: Kinds, wanted: 'infeed' | 'outfeed'): void {
  const { part, every } = row.values;
  const kind = kindOf(row, kinds);
  const [code, which] = wanted === 'infeed' ? (['ROU02', 'first'] as const) : (['ROU03', 'last'] as const);
  if (kind !== null && kind !== wanted) {
    say(row, 'stations', code, () => wrongEnd(row, which, kind, wanted));
  } else if (every !== 1) {
    const text = `found every ${every} at the ${which} step of ${inBackticks(part)}, expected 1`;
    say(row, 'every', 'ROU12', () => ({ text, help: 'Every part passes the first and the last step.' }));
  }
}

function wrongEnd(row: RouteRow, which: string, kind: StationKind, wanted: 'infeed' | 'outfeed') {
  const { part } = row.values;
  const text = `the ${which} step of ${inBackticks(part)} is at ${stationsOf(row)} of kind ${kind}, expected an ${wanted}`;
  const action = wanted === 'infeed' ? 'picks the part up' : 'sets the part down';
  return { text, help: `Add the step at the ${wanted}, where the robot ${action}.` };
}

function checkMiddle(say: Say, row: RouteRow, kinds: Kinds): void {
  const kind = kindOf(row, kinds);
  if (kind !== 'infeed' && kind !== 'outfeed') return;
  say(row, 'stations', 'ROU04', () => ({
    text: `found the ${kind} ${stationsOf(row)} between the first and the last step of ${inBackticks(row.values.part)}`,
    help: 'An infeed is the first step, an outfeed the last; set a part down in between at a buffer or a bench.',
  }));
}
