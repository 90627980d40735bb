/**
 * Input and output points by machine: used and spare, boxes, supply current against the fuse, voltage drop at the far
 * end of the cable, and safety functions that do not belong on general-purpose points.
 */
import type { Cell, Signal } from '../model/cell.js';
import { costNumber } from '../model/cost-value.js';
import { type BoxRating, boxesNeeded, boxRating, type SignalDemand, signalDemand } from './boxes-needed.js';
import { fuseFor } from './fuse-size.js';
import { safetyWarnings } from './safety-warnings.js';
import { voltageDrop } from './voltage-drop.js';

export interface StationPoints {
  readonly station: string;
  readonly inputs: number;
  readonly outputs: number;
  /** null where the box's data sheet is not given. */
  readonly boxes: number | null;
  readonly spareInputs: number | null;
  readonly spareOutputs: number | null;
  /** Supply current: signals and the boxes' own, without the reserve. */
  readonly amps: number;
  /** Supply current with the reserve of supply_reserve_pct. */
  readonly ampsWithReserve: number;
  /** Largest share of its voltage that a signal loses on its cable; null where no signal gives cable and current. */
  readonly voltageDropPct: number | null;
  /** The signal with that drop. */
  readonly voltageDropAt: string | null;
  readonly warnings: readonly string[];
}

export interface PointsResult {
  readonly stations: readonly StationPoints[];
  /** null where the box's data sheet is not given. */
  readonly boxesTotal: number | null;
  /** Items of costs.csv that are needed and not given. */
  readonly missing: readonly string[];
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/** Where no table of signals is there, as `--json` prints it. */
export interface NothingToCount {
  readonly status: 'nothing to count';
  readonly stations: readonly [];
  readonly reason: string;
}

/** @param files names of the tables that the folder has; null where points can be counted */
export function nothingToCount(files: readonly string[]): NothingToCount | null {
  if (files.includes('signals.csv')) return null;
  const reason =
    'The folder has no signals.csv, so there are no points to count. That table lists station, signal, direction (in or out) and more.';
  return { status: 'nothing to count', stations: [], reason };
}

/** Valve coils are commonly built for the rated voltage less 10%. */
const OUTPUT_DROP_LIMIT_PCT = 10;
/** IEC 61131-2: a supply may be 15% low, and a type 1 input of 24 V needs 15 V, 62.5% of it. */
const SUPPLY_LOW = 0.85;
const INPUT_ON = 15 / 24;

/**
 * @param cell stations, signals and costs count
 * @returns one row for each station that signals.csv names, in the order of stations.csv
 */
export function points(cell: Pick<Cell, 'stations' | 'signals' | 'costs'>): PointsResult {
  const rating = boxRating(cell.costs);
  const box = 'missing' in rating ? null : rating;
  const order = cell.stations.map((station) => station.name);
  const names = [...new Set(cell.signals.map((signal) => signal.station))];
  names.sort((a, b) => order.indexOf(a) - order.indexOf(b));
  const stations = names.map((name) =>
    stationPoints(
      name,
      cell.signals.filter((signal) => signal.station === name),
      box,
      cell.costs,
    ),
  );
  const missing = 'missing' in rating && stations.length > 0 ? rating.missing : [];
  return {
    stations,
    boxesTotal: box ? stations.reduce((sum, station) => sum + station.boxes!, 0) : null,
    missing,
    assumptions: assumptionsOf(cell.costs),
    warnings: [
      ...(missing.length > 0
        ? [`How many boxes are needed cannot be said: costs.csv gives no ${missing.join(', ')}.`]
        : []),
      ...(stations.length === 0 ? ['signals.csv names no signal, so there are no points to count.'] : []),
    ],
  };
}

function stationPoints(
  station: string,
  signals: readonly Signal[],
  box: BoxRating | null,
  costs: Cell['costs'],
): StationPoints {
  const demand = signalDemand(signals);
  const boxes = box ? boxesNeeded(demand, box) : null;
  const own = costNumber(costs, 'box_own_milliamps') ?? 0;
  const amps = demand.loadA + ((boxes ?? 0) * own) / 1000;
  const ampsWithReserve = amps * (1 + (costNumber(costs, 'supply_reserve_pct') ?? 0) / 100);
  const drops = signals.flatMap((signal) => dropOf(signal, costNumber(costs, 'cable_temperature_c') ?? 20));
  const worst = drops.reduce<Drop | null>((most, drop) => (most && most.pct >= drop.pct ? most : drop), null);
  return {
    station,
    inputs: demand.inputs,
    outputs: demand.outputs,
    boxes,
    spareInputs: box && boxes !== null ? boxes * box.inputs - demand.inputs : null,
    spareOutputs: box && boxes !== null ? boxes * box.outputs - demand.outputs : null,
    amps,
    ampsWithReserve,
    voltageDropPct: worst?.pct ?? null,
    voltageDropAt: worst?.signal.signal ?? null,
    warnings: [
      ...safetyWarnings(signals),
      ...supplyWarnings(ampsWithReserve, boxes, costs),
      ...currentWarnings(demand),
      ...drops.flatMap(dropWarning),
    ],
  };
}

interface Drop {
  readonly signal: Signal;
  readonly volts: number;
  readonly pct: number;
}

function dropOf(signal: Signal, temperatureC: number): Drop[] {
  const { volts, milliamps, cableM, cableMm2 } = signal;
  if (volts === null || volts === 0 || milliamps === null || cableM === null || cableMm2 === null) return [];
  const drop = voltageDrop(milliamps / 1000, cableM, cableMm2, temperatureC);
  return [{ signal, volts: drop, pct: (100 * drop) / volts }];
}

function dropWarning({ signal, volts, pct }: Drop): string[] {
  const lost = `\`${signal.signal}\` loses ${volts.toFixed(2)} V of ${signal.volts} V on its cable (${pct.toFixed(1)}%)`;
  if (signal.direction === 'out' && pct > OUTPUT_DROP_LIMIT_PCT)
    return [
      `${lost}; coils are commonly built for ${OUTPUT_DROP_LIMIT_PCT}% less at most: take a thicker or shorter cable.`,
    ];
  if (signal.direction === 'in' && signal.kind === 'digital' && pct > 100 * (SUPPLY_LOW - INPUT_ON))
    return [
      `${lost}; with the supply 15% low the input would see less than it needs to switch (IEC 61131-2, type 1): take a thicker or shorter cable.`,
    ];
  return [];
}

function currentWarnings(demand: SignalDemand): string[] {
  if (demand.withoutCurrent === 0) return [];
  const all = demand.inputs + demand.outputs;
  return [
    `${demand.withoutCurrent} of ${all} signals give no milliamps and count as 0 A, so the true current is higher.`,
  ];
}

function supplyWarnings(amps: number, boxes: number | null, costs: Cell['costs']): string[] {
  const fuseA = costNumber(costs, 'fuse_amps');
  const loadPct = costNumber(costs, 'fuse_load_pct') ?? 80;
  if (boxes === null || boxes === 0 || fuseA === null) return [];
  const perBox = amps / boxes;
  if (perBox <= (fuseA * loadPct) / 100 + 1e-9) return [];
  const { leastA, stockA } = fuseFor(perBox, loadPct);
  const advice = stockA === null ? 'split the load over more boxes' : `a common size is ${stockA} A`;
  return [
    `Each box carries ${perBox.toFixed(2)} A, more than ${loadPct}% of its ${fuseA} A fuse; it needs ${leastA.toFixed(2)} A or more (${advice}), within what the box is rated for.`,
  ];
}

function assumptionsOf(costs: Cell['costs']): string[] {
  return [
    'Every signal of signals.csv takes one point, safety signals too.',
    'All currents are taken to flow at once, spread evenly over a machine’s boxes.',
    'Voltage drop: two copper conductors of equal section at the resistance limits of IEC 60228 for flexible cable, each signal on its own pair, ' +
      `${costNumber(costs, 'cable_temperature_c')} °C.`,
    `A fuse is used to ${costNumber(costs, 'fuse_load_pct')}% of its rating at most.`,
  ];
}
