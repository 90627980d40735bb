/** Doors and stops of the stations, as the tables give them and as the log measured them. */
import type { Cell, Station } from '../../model/cell.js';
import type { LogResult, StationLog } from '../log-result.js';
import type { MeasureSummary } from '../measure.js';
import { stopRate } from '../stop-rate.js';
import { type PooledTime, pooledTime } from './pooled-time.js';
import type { MeasuredElement, MeasuredElements } from './route-elements.js';

/** Stops below which neither the time between them nor the time to clear one is held against the estimate. */
const FEWEST_STOPS = 2;

export function stationElements(cell: Cell, log: LogResult): MeasuredElements {
  const logs = new Map(log.stations.map((s) => [s.station, s]));
  const notes: string[] = [];
  const elements = cell.stations.flatMap((station) => {
    const own = logs.get(station.name);
    if (own === undefined) return [];
    return [...doorElements(station, own), ...stopElements(station, own, notes)];
  });
  return { elements, notes };
}

function doorElements(station: Station, { times }: StationLog): MeasuredElement[] {
  const doors = [
    { what: 'door opens', column: 'ready_s', estimate: station.readyS, time: times.ready },
    { what: 'door closes', column: 'close_s', estimate: station.closeS, time: times.close },
  ];
  return doors.flatMap(({ what, column, estimate, time }) => {
    const measured = pooledTime([time]);
    if (measured === null || (measured.mean === 0 && estimate === 0)) return [];
    const path = `stations.${station.name}.${column}`;
    return [{ element: `${what} at ${station.name}`, path, unit: 's' as const, estimate, measured }];
  });
}

function stopElements(
  station: Station,
  { times, stopRate: rate }: StationLog,
  notes: string[],
): MeasuredElement[] {
  if (rate === null) return [];
  if (rate.stops < FEWEST_STOPS) {
    if (rate.stops > 0 || station.mtbfH !== null) notes.push(fewText(station, rate.stops, rate.processingH));
    return [];
  }
  const clearing = times.repair ?? times.stop;
  const minutes = clearing === null ? null : pooledTime([scaled(clearing, 1 / 60)]);
  if (times.repair === null)
    notes.push(
      `The log of ${station.name} does not say when somebody came (\`attend\`), so its time to clear a stop holds the time until then.`,
    );
  return [
    {
      element: `time between stops of ${station.name}`,
      path: `stations.${station.name}.mtbf_h`,
      unit: 'h',
      estimate: station.mtbfH,
      measured: stopTime(rate.stops, rate.processingH),
    },
    ...(minutes === null
      ? []
      : [
          {
            element: `time to clear a stop of ${station.name}`,
            path: `stations.${station.name}.mttr_min`,
            unit: 'min' as const,
            estimate: station.mttrMin,
            measured: minutes,
          },
        ]),
  ];
}

function fewText({ name, mtbfH }: Station, stops: number, processingH: number): string {
  const said = mtbfH === null ? 'no stops' : `one in ${mtbfH} hours of work`;
  return `${name} had ${stops} ${stops === 1 ? 'stop' : 'stops'} in ${processingH.toFixed(1)} hours of work; the tables say ${said}. That is too little to compare.`;
}

function stopTime(stops: number, processingH: number): PooledTime {
  return {
    n: stops,
    mean: processingH / stops,
    sd: null,
    interval: (confidence) => {
      const { ciLow, ciHigh } = stopRate(stops, processingH * 3600, confidence);
      return { low: ciLow, high: ciHigh ?? Number.POSITIVE_INFINITY };
    },
  };
}

function scaled(m: MeasureSummary, factor: number): MeasureSummary {
  return {
    ...m,
    mean: m.mean * factor,
    sd: m.sd === null ? null : m.sd * factor,
    se: m.se === null ? null : m.se * factor,
  };
}
