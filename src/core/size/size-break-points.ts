/**
 * At which value of an input the number of machines to choose changes: each input alone, down to half and up to twice
 * its value. Changed times are first judged by the orders known so far, which costs little; the two values on either
 * side of a change are then verified by searching again, and an order found there joins the known ones.
 */
import type { Cell } from '../model/cell.js';
import { type ScaledElement, scaledCell } from '../model/scaled-cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { chosenRow, onceEach, type RowAt, rowOf, type SensitivityInputs } from './sensitivity.js';
import type { SizeRow } from './size-row.js';

export const MONEY_INPUTS = ['contribution', 'machine cost', 'robot cost', 'labour'] as const;
export type MoneyInput = (typeof MONEY_INPUTS)[number];

export interface BreakSide {
  /** Change of the input at which the choice is another one, per cent. */
  readonly changePct: number;
  /** The input there; null where it is not one number. */
  readonly value: number | null;
  /** Number of machines to choose there; never more than were tried. */
  readonly machines: number;
  /** Nearest change looked at with the choice as it is, per cent. */
  readonly sameAtPct: number;
  /** False where a search on either side came to its limit, so that a better order may move the change. */
  readonly proven: boolean;
}

export interface SizeBreakPoint {
  readonly element: ScaledElement | MoneyInput | 'allowed waiting';
  readonly unit: 's' | 'money' | 'money/h' | '%';
  /** The input as it is; null where it is not one number. */
  readonly value: number | null;
  /** null: the choice does not change down to `fromPct`. */
  readonly below: BreakSide | null;
  /** null: the choice does not change up to `toPct`. */
  readonly above: BreakSide | null;
  readonly fromPct: number;
  readonly toPct: number;
}

export interface BreakPointInputs extends SensitivityInputs {
  /** What an order found before yields on a changed cell; null where it cannot run. */
  readonly again: (cell: Cell, found: ScheduleFound) => ScheduleFound | null;
}

const DOWN = [0.9, 0.75, 0.5];
const UP = [1.1, 1.35, 2];
/** Times that known orders and new searches may disagree before only searches count. */
const ROUNDS = 6;

/** Number of machines to choose at a factor, and whether every row that it was chosen from is proven; null = no row. */
type Choose = (factor: number) => { readonly machines: number; readonly proven: boolean } | null;

/** Nothing for a time that is nowhere. */
export function timeBreakPoints(inputs: BreakPointInputs, element: ScaledElement): SizeBreakPoint[] {
  const base = timeValue(inputs.stages.at(-1)!.cell, element);
  if (base === 0) return [];
  const { quick, sure } = timeChoices(inputs, element);
  const side = (steps: readonly number[]): BreakSide | null =>
    sideOf(verifiedChange(quick, sure, inputs.machines, steps), sure, base);
  return [pointOf(element, 's', base, side)];
}

/** The choice by known orders, and the same once a new search has added to them. */
function timeChoices(inputs: BreakPointInputs, element: ScaledElement): { quick: Choose; sure: Choose } {
  const orders = inputs.schedules.map((schedule) => [schedule]);
  const cellAt = (i: number, factor: number): Cell => scaledCell(inputs.stages[i]!.cell, element, factor);
  const bestKnown = (i: number, cell: Cell): SizeRow | null =>
    orders[i]!.reduce<SizeRow | null>((best, found) => {
      const again = inputs.again(cell, found);
      const row = again === null ? null : rowOf(inputs, i, cell, again);
      return row !== null && (best === null || isBetter(row, best)) ? row : best;
    }, null);
  const searched = new Map<string, boolean>();
  const quick: Choose = (factor) => choiceFrom((i) => bestKnown(i, cellAt(i, factor)), inputs);
  const sure: Choose = (factor) =>
    choiceFrom((i) => {
      const cell = cellAt(i, factor);
      const key = `${i} ${factor}`;
      if (!searched.has(key)) {
        const outcome = inputs.solve(cell, orders[i]!);
        if ('order' in outcome) orders[i]!.push(outcome);
        searched.set(key, rowOf(inputs, i, cell, outcome)?.proven ?? true);
      }
      const row = bestKnown(i, cell);
      return row && { ...row, proven: searched.get(key)! };
    }, inputs);
  return { quick, sure };
}

/** Earns more, or as much with less waiting for the busy robot. */
function isBetter(row: SizeRow, than: SizeRow): boolean {
  const gain = yieldOf(row) - yieldOf(than);
  const same = Math.abs(gain) <= 1e-9 * Math.abs(yieldOf(than));
  return same ? row.waitBusyPct < than.waitBusyPct : gain > 0;
}

function choiceFrom(row: RowAt, inputs: Omit<SensitivityInputs, 'solve' | 'schedules'>): ReturnType<Choose> {
  let proven = true;
  const chosen = chosenRow(
    onceEach((i) => {
      const found = row(i);
      proven &&= found?.proven ?? true;
      return found;
    }),
    inputs,
  );
  return chosen === null ? null : { machines: chosen.machines, proven };
}

function yieldOf(row: SizeRow): number {
  return row.contributionPerH ?? row.partsPerH;
}

/** The change as the known orders tell it, once new searches on both sides agree; else as the searches alone tell it. */
function verifiedChange(
  quick: Choose,
  sure: Choose,
  machines: number,
  steps: readonly number[],
): ChangeBracket | null {
  const isSame = (factor: number): boolean => sure(factor)?.machines === machines;
  for (let round = 0; round < ROUNDS; round++) {
    const bracket = firstChange((factor) => quick(factor)?.machines === machines, steps);
    if (bracket === null ? isSame(steps.at(-1)!) : isSame(bracket.same) && !isSame(bracket.changed))
      return bracket;
  }
  return firstChange(isSame, steps);
}

/** The allowed waiting where the choice goes by it, else each price: neither changes the orders. */
export function moneyBreakPoints(inputs: BreakPointInputs): SizeBreakPoint[] {
  return inputs.measure === 'waiting for the robot' ? waitingPoint(inputs) : moneyPoints(inputs);
}

/** Money does not change the orders, so every choice is exact. */
function moneyPoints(inputs: BreakPointInputs): SizeBreakPoint[] {
  return MONEY_INPUTS.flatMap((element) => {
    const base = moneyValue(inputs, element);
    if (base === 0) return [];
    const choose: Choose = (factor) => {
      const context =
        element === 'labour'
          ? { ...inputs.context, labourPerH: inputs.context.labourPerH * factor }
          : inputs.context;
      const row: RowAt = (i) =>
        rowOf(
          { stages: inputs.stages, context },
          i,
          pricedCell(inputs, i, element, factor),
          inputs.schedules[i]!,
        );
      return choiceFrom(row, inputs);
    };
    const side = (steps: readonly number[]): BreakSide | null =>
      sideOf(
        firstChange((factor) => choose(factor)?.machines === inputs.machines, steps),
        choose,
        base,
      );
    return [pointOf(element, element === 'contribution' ? 'money' : 'money/h', base, side)];
  });
}

function pricedCell({ stages }: BreakPointInputs, stage: number, element: MoneyInput, factor: number): Cell {
  const { cell, machines } = stages[stage]!;
  if (element === 'contribution')
    return {
      ...cell,
      parts: cell.parts.map((p) => ({
        ...p,
        contribution: p.contribution === null ? null : p.contribution * factor,
      })),
    };
  if (element === 'machine cost')
    return {
      ...cell,
      stations: cell.stations.map((s) =>
        machines.includes(s.name) ? { ...s, costPerH: s.costPerH * factor } : s,
      ),
    };
  if (element === 'robot cost')
    return { ...cell, robot: { ...cell.robot, costPerH: cell.robot.costPerH * factor } };
  return cell;
}

/** The share of waiting that is still taken as fair, where the choice goes by it. */
function waitingPoint(inputs: BreakPointInputs): SizeBreakPoint[] {
  if (inputs.maxWaitPct === 0) return [];
  const row: RowAt = (i) => rowOf(inputs, i, inputs.stages[i]!.cell, inputs.schedules[i]!);
  const rowAt = onceEach(row);
  const choose: Choose = (factor) => choiceFrom(rowAt, { ...inputs, maxWaitPct: inputs.maxWaitPct * factor });
  const side = (steps: readonly number[]): BreakSide | null =>
    sideOf(
      firstChange((factor) => choose(factor)?.machines === inputs.machines, steps),
      choose,
      inputs.maxWaitPct,
    );
  return [pointOf('allowed waiting', '%', inputs.maxWaitPct, side)];
}

function pointOf(
  element: SizeBreakPoint['element'],
  unit: SizeBreakPoint['unit'],
  value: number | null,
  side: (steps: readonly number[]) => BreakSide | null,
): SizeBreakPoint {
  return {
    element,
    unit,
    value,
    below: side(DOWN),
    above: side(UP),
    fromPct: pct(DOWN.at(-1)!),
    toPct: pct(UP.at(-1)!),
  };
}

function sideOf(bracket: ChangeBracket | null, choose: Choose, base: number | null): BreakSide | null {
  if (bracket === null) return null;
  const [other, same] = [choose(bracket.changed), choose(bracket.same)];
  if (other === null) return null;
  return {
    changePct: pct(bracket.changed),
    value: base === null ? null : base * bracket.changed,
    machines: other.machines,
    sameAtPct: pct(bracket.same),
    proven: other.proven && same?.proven === true,
  };
}

function pct(factor: number): number {
  return 100 * (factor - 1);
}

/** The one time of its kind; null where there are several, 0 where there is none. */
function timeValue(cell: Cell, element: ScaledElement): number | null {
  if (element === 'travel') {
    const { travelS, speedMS } = cell.robot;
    const single = cell.travel.length === 0 && speedMS === null;
    return single ? (travelS ?? 0) : null;
  }
  const key = `${element}S` as 'cycleS' | 'loadS' | 'unloadS';
  return oneOf(cell.routes.flatMap((r) => r.steps.map((s) => s[key])));
}

function moneyValue({ stages, context }: BreakPointInputs, element: MoneyInput): number | null {
  const { cell, machines } = stages.at(-1)!;
  if (element === 'labour') return context.labourPerH;
  if (element === 'robot cost') return cell.robot.costPerH;
  if (element === 'contribution') return oneOf(cell.parts.map((p) => p.contribution ?? 0));
  return oneOf(cell.stations.filter((s) => machines.includes(s.name)).map((s) => s.costPerH));
}

function oneOf(values: readonly number[]): number | null {
  const unlike = [...new Set(values.filter((v) => v !== 0))];
  return unlike.length === 0 ? 0 : unlike.length === 1 ? unlike[0]! : null;
}

/**
 * The factor on an input at which an answer changes: a few widening steps find a factor with another answer, then the
 * gap to the last one with the same answer is halved until it is narrow.
 */

/** Factors on either side of a change. */
interface ChangeBracket {
  /** Nearer to 1: the answer is still the same. */
  readonly same: number;
  /** Farther from 1: another answer. */
  readonly changed: number;
}

/** The gap left, as a share of the input. */
export const BRACKET_SHARE = 0.001;

/**
 * @param isSame whether the answer at a factor is that at factor 1
 * @param steps factors to look at, ever farther from 1
 * @returns null where all of them give the same answer
 */
export function firstChange(
  isSame: (factor: number) => boolean,
  steps: readonly number[],
): ChangeBracket | null {
  let same = 1;
  for (const step of steps) {
    if (isSame(step)) same = step;
    else return narrowed(isSame, { same, changed: step });
  }
  return null;
}

function narrowed(isSame: (factor: number) => boolean, bracket: ChangeBracket): ChangeBracket {
  let { same, changed } = bracket;
  while (Math.abs(changed - same) > BRACKET_SHARE) {
    const middle = (same + changed) / 2;
    if (isSame(middle)) same = middle;
    else changed = middle;
  }
  return { same, changed };
}
