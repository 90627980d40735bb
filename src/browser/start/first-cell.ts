/** A first cell from three answers: how many machines, their cycle times, loading and unloading. */
import type { Tables } from '../../tables/inspect-tables.js';
import { tableText } from '../../tables/table-text.js';

export interface FirstAnswers {
  /** Machine cycle of each machine, seconds. */
  readonly cyclesS: readonly number[];
  readonly loadS: number;
  readonly unloadS: number;
}

/** Assumed where nothing is asked; the page says so, and the tables can be changed. */
export const ASSUMED = { speedMS: 1, reachM: 1.5 } as const;

/** Machines on half a circle round the robot, the racks on the other side. Machines of one cycle time share a part. */
export function firstCell({ cyclesS, loadS, unloadS }: FirstAnswers): Tables {
  const machines = cyclesS.map((_, k) => `machine_${k + 1}`);
  const at = (angle: number): string[] =>
    [Math.cos(angle), Math.sin(angle)].map((part) =>
      String(Math.round(ASSUMED.reachM * part * 100) / 100 + 0),
    );
  const spread = (k: number): number => (Math.PI * (machines.length - k)) / (machines.length + 1);
  const times = [...new Set(cyclesS)];
  const partOf = (k: number): string => (times.length === 1 ? 'part' : `part_${k + 1}`);
  const [load, unload] = [String(loadS), String(unloadS)];
  return {
    'stations.csv': tableText([
      ['station', 'kind', 'x_m', 'y_m'],
      ['raw_rack', 'infeed', ...at(Math.PI * 1.3)],
      ...machines.map((name, k) => [name, 'machine', ...at(spread(k))]),
      ['done_rack', 'outfeed', ...at(Math.PI * 1.7)],
    ]),
    'routes.csv': tableText([
      ['part', 'step', 'stations', 'cycle_s', 'load_s', 'unload_s'],
      ...times.flatMap((cycleS, k) => [
        [partOf(k), '1', 'raw_rack', '', '', unload],
        [
          partOf(k),
          '2',
          machines.filter((_, m) => cyclesS[m] === cycleS).join('|'),
          String(cycleS),
          load,
          unload,
        ],
        [partOf(k), '3', 'done_rack', '', load, ''],
      ]),
    ]),
    'robot.csv': tableText([
      ['setting', 'value'],
      ['hands', '1'],
      ['speed_m_s', String(ASSUMED.speedMS)],
    ]),
  };
}

const MOST_MACHINES = 20;

/** @returns the cycle of each machine, or what is wrong with the text */
export function cyclesOf(machines: number, text: string): readonly number[] | string {
  if (!Number.isInteger(machines) || machines < 1 || machines > MOST_MACHINES)
    return `Give a whole number of machines from 1 to ${MOST_MACHINES}.`;
  const pieces = text.trim().split(/[\s;]+/);
  const cycles = pieces.map((piece) =>
    /^\d+([.,]\d+)?$/.test(piece) ? Number(piece.replace(',', '.')) : Number.NaN,
  );
  if (cycles.some((cycle) => Number.isNaN(cycle) || cycle <= 0))
    return 'Give machine cycles in seconds, such as 240, or one for each machine, such as 240 180 300.';
  if (cycles.length === 1) return Array.from({ length: machines }, () => cycles[0]!);
  if (cycles.length === machines) return cycles;
  return `Give one machine cycle for all, or ${machines} of them; found ${cycles.length}.`;
}

/** @returns seconds, or null for what is none */
export function secondsOf(text: string): number | null {
  const trimmed = text.trim();
  return /^\d+([.,]\d+)?$/.test(trimmed) ? Number(trimmed.replace(',', '.')) : null;
}
