/** The ways of the robot, as the tables give them and as the log measured them. */
import type { Cell } from '../../model/cell.js';
import { travelLookup } from '../../model/travel.js';
import type { LogResult, WayLog } from '../log-result.js';
import { pooledTime } from './pooled-time.js';
import type { MeasuredElement, MeasuredElements } from './route-elements.js';

/** The time that a gripper of two hands takes to turn; with one hand there is none. */
export function indexElements(cell: Cell, log: LogResult): MeasuredElements {
  const measured = cell.robot.hands === 2 ? pooledTime([log.robot?.index ?? null]) : null;
  if (measured === null) return { elements: [], notes: [] };
  const estimate = cell.robot.indexS;
  return {
    elements: [{ element: 'turning the hands', path: 'robot.index_s', unit: 's', estimate, measured }],
    notes: [],
  };
}

export function wayElements(cell: Cell, log: LogResult): MeasuredElements {
  const ways = (log.robot?.ways ?? []).filter((w) => w.from !== w.to);
  if (ways.length === 0)
    return {
      elements: [],
      notes: ['The log does not say when the robot leaves and arrives, so its trips are not compared.'],
    };
  const lookup = travelLookup(cell);
  const atFullSpeed = fullSpeedWays(cell, ways);
  const elements = atFullSpeed.flatMap(({ way, stretch }): MeasuredElement[] => {
    const time = lookup(way.from, way.to);
    const { times } = way;
    const plain = {
      ...times,
      mean: times.mean / stretch,
      sd: times.sd === null ? null : times.sd / stretch,
      se: times.se === null ? null : times.se / stretch,
    };
    const column = way.loaded ? 'loaded_s' : 'empty_s';
    return [
      {
        element: `trip from ${way.from} to ${way.to}, ${way.loaded ? 'with a part' : 'empty'}`,
        path: `travel.${way.from}.${way.to}.${column}`,
        unit: 's',
        estimate: time === null ? null : way.loaded ? time.loadedS : time.emptyS,
        measured: pooledTime([plain])!,
      },
    ];
  });
  const slowed = atFullSpeed.some((w) => w.stretch !== 1);
  const note = `In attended shifts the robot goes at ${cell.robot.attendedSpeedPct}% of its speed; trips made then are compared with the tables at full speed.`;
  return { elements, notes: slowed ? [note] : [] };
}

/** Each way once: as driven at full speed, or where it never was, as driven at the attended speed. */
function fullSpeedWays(cell: Cell, ways: readonly WayLog[]): { way: WayLog; stretch: number }[] {
  const slow = 100 / cell.robot.attendedSpeedPct;
  const key = (w: WayLog): string => `${w.from}\n${w.to}\n${w.loaded}`;
  const best = new Map<string, { way: WayLog; stretch: number }>();
  for (const way of ways) {
    const found = { way, stretch: way.attended === true ? slow : 1 };
    const before = best.get(key(way));
    if (before === undefined || found.stretch < before.stretch) best.set(key(way), found);
  }
  return [...best.values()];
}
