// The least one-part period of a serial cell with two hands as a mixed-integer program over single events: every pick
// and every place has its start, and every two of them an order. Right where travel keeps the triangle inequality and
// no action takes less time than turning the gripper, so that events further apart bind no less than neighbours do.
import type { SerialCell } from './brute-force.js';

interface Event {
  readonly name: string;
  readonly pick: boolean;
  /** The carry from place `carry` to the one after. */
  readonly carry: number;
  readonly place: number;
  readonly robotS: number;
}

export function twoHandModel(cell: SerialCell): string {
  const events = eventsOf(cell);
  const longestS = longest(cell);
  const M = 2 * longestS;
  const rows: string[] = [];
  const row = (text: string): void => void rows.push(` c${rows.length}: ${text}`);
  const wayS = (a: Event, b: Event): number =>
    a.robotS + (a.place === b.place ? cell.indexS : cell.travel[a.place][b.place]);
  for (const [i, a] of events.entries())
    for (const b of events.slice(i + 1)) {
      const x = before(a, b);
      row(`${b.name} - ${a.name} - ${M} ${x} >= ${wayS(a, b) - M}`);
      row(`${a.name} - ${b.name} + ${M} ${x} >= ${wayS(b, a)}`);
      // And again over the end of the round, whichever comes first.
      row(`T + ${a.name} - ${b.name} >= ${wayS(b, a)}`);
      row(`T + ${b.name} - ${a.name} >= ${wayS(a, b)}`);
    }
  processRows(cell, events, M, row);
  const { counts, hands } = handRows(events, row);
  const orders = events.flatMap((a, i) => events.slice(i + 1).map((b) => before(a, b)));
  const bounds = events.slice(1).map((e) => ` ${e.name} <= ${longestS}`);
  return (
    `Minimize\n obj: T\nSubject To\n${[...rows, ...hands].join('\n')}\nBounds\n p0 = 0\n T <= ${longestS}\n` +
    `${bounds.join('\n')}\nBinary\n ${[...orders, ...counts].join('\n ')}\nEnd\n`
  );
}

function eventsOf(cell: SerialCell): Event[] {
  const carries = cell.processS.map((_, carry) => carry);
  return carries.flatMap((carry) => [
    { name: `p${carry}`, pick: true, carry, place: carry, robotS: cell.pickS[carry] },
    { name: `q${carry}`, pick: false, carry, place: carry + 1, robotS: cell.placeS[carry + 1] },
  ]);
}

/** One part at a time through the whole cell. */
function longest(cell: SerialCell): number {
  return cell.processS.reduce(
    (sum, _, i) =>
      sum +
      cell.pickS[i] +
      cell.travel[i][i + 1] +
      cell.placeS[i + 1] +
      (cell.processS[i + 1] ?? 0) +
      cell.indexS +
      Math.max(...cell.travel[i + 1]),
    0,
  );
}

/** Name of the variable that is 1 where `a` comes before `b`; `a` stands before `b` in the list. */
function before(a: Event, b: Event): string {
  return `x_${a.name}_${b.name}`;
}

function processRows(
  cell: SerialCell,
  events: readonly Event[],
  M: number,
  row: (text: string) => void,
): void {
  for (let i = 1; i < cell.processS.length; i++) {
    const place = events[2 * (i - 1) + 1];
    const pick = events[2 * i];
    const leastS = place.robotS + cell.processS[i];
    const x = before(place, pick);
    row(`${pick.name} - ${place.name} - ${M} ${x} >= ${leastS - M}`);
    row(`T + ${pick.name} - ${place.name} + ${M} ${x} >= ${leastS}`);
  }
}

/** At each pick at most one other part is in hand. */
function handRows(
  events: readonly Event[],
  row: (text: string) => void,
): { counts: string[]; hands: string[] } {
  const counts: string[] = [];
  const hands: string[] = [];
  const picks = events.filter((e) => e.pick);
  for (const pick of picks) {
    const others = picks.filter((e) => e !== pick);
    for (const other of others) {
      const place = events[2 * other.carry + 1];
      const y = `y_${other.name}_${pick.name}`;
      const carried = before(other, place);
      // picked: the other part was picked before; yet: it is placed after. Each may be 1 - x.
      const picked = earlier(other, pick, events);
      const yet = earlier(pick, place, events);
      row(
        `${y} - ${picked.term} - ${yet.term} >= ${picked.constant + yet.constant - 1}`.replaceAll(
          '- -',
          '+ ',
        ),
      );
      row(`${y} - ${picked.term} + ${carried} >= ${picked.constant}`.replaceAll('- -', '+ '));
      row(`${y} - ${yet.term} + ${carried} >= ${yet.constant}`.replaceAll('- -', '+ '));
      counts.push(y);
    }
    if (others.length > 0)
      hands.push(` h${pick.carry}: ${others.map((o) => `y_${o.name}_${pick.name}`).join(' + ')} <= 1`);
  }
  return { counts, hands };
}

/** 'a before b' as constant + term: x, or 1 - x where b stands before a in the list. */
function earlier(a: Event, b: Event, events: readonly Event[]): { term: string; constant: number } {
  return events.indexOf(a) < events.indexOf(b)
    ? { term: before(a, b), constant: 0 }
    : { term: `-${before(b, a)}`, constant: 1 };
}
