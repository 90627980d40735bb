/**
 * How a cell grows by one machine at a time. Three ways:
 *
 * - identical machines from a few figures: `m1`, then `m1` and `m2`, and so on;
 * - from a list: where some part can still be made with fewer machines than the cell has, its own machines are added
 *   in a stated order, or each time the one that brings most; parts for which a machine is missing are left out;
 * - by copies: where every machine is needed for every part (a serial route with one machine a step, or one machine
 *   alone), the whole set comes first.
 *
 * Once a cell has all its machines, copies of those that may bring something come next (see `copies.ts`).
 */
import type { Cell, Route } from '../model/cell.js';
import { reducedCell, usedMachines } from '../model/reduced-cell.js';
import { likelyCopies, type Stage } from './copies.js';
import { type IdenticalMachines, identicalCell } from './identical-machines.js';

export interface Growth {
  readonly way: 'identical' | 'from a list' | 'by copies';
  /** Cells to start from; the best of them is taken. */
  readonly first: readonly Stage[];
  /** Machines that the cell has already; 0 where it is made up of figures. */
  readonly owned: number;
  /** Machines of the last cell at the latest. */
  readonly most: number;
  /** Cells that may come next; none = the end. */
  readonly next: (stage: Stage) => readonly Stage[];
}

/** Identical machines, from 1 to `most`. */
export function identicalGrowth(figures: IdenticalMachines, most: number): Growth {
  const stage = (n: number): Stage => {
    const cell = identicalCell(figures, n);
    return { cell, machines: usedMachines(cell) };
  };
  return {
    way: 'identical',
    owned: 0,
    most,
    first: [stage(1)],
    next: ({ machines }) => (machines.length < most ? [stage(machines.length + 1)] : []),
  };
}

/**
 * @param order names in the order in which machines are added; `table`: as in stations.csv; `best`: each time the one
 *   that brings most
 * @param most machines to go up to; null = all of the cell's and a few copies
 * @throws RangeError where the order names a machine that no route uses, or the cell has no machine
 */
export function cellGrowth(
  cell: Cell,
  order: readonly string[] | 'table' | 'best',
  most: number | null,
): Growth {
  const machines = usedMachines(cell);
  if (machines.length === 0)
    throw new RangeError('no route of the cell visits a machine, so there is nothing to size');
  const own = ownGrowth(cell, machines, order, most);
  const end = most ?? machines.length + (machines.length <= FEW_MACHINES ? COPIES_OF_FEW : COPIES);
  return {
    ...own,
    owned: machines.length,
    most: Math.max(end, machines.length),
    next: (stage) => {
      const more = own.next(stage);
      if (more.length > 0 || stage.machines.length < machines.length || stage.machines.length >= end)
        return more;
      return likelyCopies(stage);
    },
  };
}

/** Copies added unasked, and to a cell of few machines. */
const COPIES = 1;
const COPIES_OF_FEW = 2;
const FEW_MACHINES = 6;

/** From the machines that the cell has. */
function ownGrowth(
  cell: Cell,
  machines: readonly string[],
  order: readonly string[] | 'table' | 'best',
  most: number | null,
): Omit<Growth, 'owned' | 'most'> {
  if (!canShrink(cell, machines)) return { way: 'by copies', first: [{ machines, cell }], next: () => [] };
  if (order === 'best') return greedyGrowth(cell, machines, most ?? Math.min(machines.length, MOST_UNASKED));
  return listGrowth(
    cell,
    order === 'table' ? machines : checkedOrder(machines, order),
    most ?? machines.length,
  );
}

/** Rows of the table where no number is asked for; one robot tends far fewer. */
export const MOST_UNASKED = 24;

/** Some part can be made without some machine. */
function canShrink(cell: Cell, machines: readonly string[]): boolean {
  return machines.some(
    (m) =>
      stageOf(
        cell,
        machines.filter((other) => other !== m),
      ).cell.routes.length > 0,
  );
}

function stageOf(cell: Cell, machines: readonly string[]): Stage {
  return { machines, cell: reducedCell(cell, machines) };
}

function checkedOrder(machines: readonly string[], order: readonly string[]): readonly string[] {
  const unknown = order.find((name) => !machines.includes(name));
  if (unknown !== undefined)
    throw new RangeError(`${unknown} is not a machine of any route; there are ${machines.join(', ')}`);
  const twice = order.find((name, i) => order.indexOf(name) !== i);
  if (twice !== undefined) throw new RangeError(`${twice} is listed twice in the order of machines`);
  return order;
}

/** Prefixes of the list, from the first with which some part can be made. */
function listGrowth(cell: Cell, order: readonly string[], most: number): Omit<Growth, 'owned' | 'most'> {
  const stages = order
    .map((_, i) => stageOf(cell, order.slice(0, i + 1)))
    .filter((s) => s.cell.routes.length > 0 && s.machines.length <= most);
  return {
    way: 'from a list',
    first: stages.slice(0, 1),
    next: ({ machines }) => stages.filter((s) => s.machines.length > machines.length).slice(0, 1),
  };
}

/** Machines that are tried each time, of those that may come next; without a bound a long list would be tried n^2 times. */
export const MOST_TRIED = 12;

function greedyGrowth(cell: Cell, machines: readonly string[], most: number): Omit<Growth, 'owned' | 'most'> {
  const larger = (have: readonly string[]): Stage[] => {
    const rest = machines.filter((m) => !have.includes(m)).slice(0, MOST_TRIED);
    const singles = rest.map((m) => [m]);
    // A part that needs several missing machines is opened by all of them at once.
    const sets = cell.routes.map((r) => missingFor(cell, r, have)).filter((set) => set.length > 1);
    return [...singles, ...sets.slice(0, MOST_TRIED)]
      .map((more) =>
        stageOf(
          cell,
          machines.filter((m) => have.includes(m) || more.includes(m)),
        ),
      )
      .filter((s) => s.cell.routes.length > 0 && s.machines.length <= most);
  };
  const fewest = (stages: readonly Stage[]): Stage[] => {
    const least = Math.min(...stages.map((s) => s.machines.length));
    return stages.filter((s) => s.machines.length === least);
  };
  return {
    way: 'from a list',
    first: fewest(larger([])),
    next: (stage) => larger(stage.machines),
  };
}

/** First machine of each step for which the route has none yet. */
function missingFor(cell: Cell, route: Route, have: readonly string[]): string[] {
  const isMachine = (name: string): boolean => cell.stations.find((s) => s.name === name)?.kind === 'machine';
  const missing = route.steps
    .filter((step) => step.stations.every((s) => isMachine(s) && !have.includes(s)))
    .map((step) => step.stations[0]!);
  return [...new Set(missing)];
}
