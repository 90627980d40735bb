/** Minutes of one changeover from the ground up, both ways. Each line is one item of the cost table. */
import { type CaseInputs, type CaseStation, type LostPart, num } from './case-inputs.js';
import { soldShare } from './standing/standing-facts.js';

type Numbers = Pick<CaseInputs, 'numbers'>;

export interface MinutesLine {
  readonly what: string;
  readonly minutes: number;
  /** Items of costs.csv whose product the minutes are. */
  readonly items: readonly string[];
  /** What the product is taken for each of; nothing where it is taken once. */
  readonly counts?: 'signals' | 'boxes';
}

type LineItems = Omit<MinutesLine, 'minutes'>;
/** How many of what a line is taken for each of. */
type Counts = Readonly<Partial<Record<'signals' | 'boxes', number>>>;

/** Moving the harness: unplug, carry, route, plug, check every signal, first part, expected fault finding. */
const HARNESS_ITEMS: readonly LineItems[] = [
  { what: 'plugging', items: ['harness_connectors', 'harness_min_per_connector'] },
  { what: 'carrying', items: ['harness_carry_min'] },
  { what: 'routing', items: ['harness_route_min'] },
  { what: 'checking the machine’s identity', items: ['identity_check_harness_min'] },
  { what: 'checking signals', items: ['check_min_per_signal'], counts: 'signals' },
  { what: 'first part', items: ['first_part_harness_min'] },
  { what: 'expected fault finding', items: ['fault_chance_harness', 'fault_find_min'] },
];

/** Boxes that stay on the machine: one plug for each, a shorter check, fewer faults. */
const BOX_ITEMS: readonly LineItems[] = [
  { what: 'plugging', items: ['box_plug_min'], counts: 'boxes' },
  { what: 'checking the machine’s identity', items: ['identity_check_box_min'] },
  { what: 'checking', items: ['box_check_min'] },
  { what: 'first part', items: ['first_part_box_min'] },
  { what: 'expected fault finding', items: ['fault_chance_box', 'fault_find_min'] },
];

function connectionItems(connection: string): LineItems[] {
  const of = (item: string) => `${connection}.${item}`;
  return [
    { what: 'plugging', items: [of('plug_min')] },
    { what: 'checking the machine’s identity', items: [of('identity_check_min')] },
    { what: 'checking', items: [of('check_min')] },
    { what: 'checking signals', items: [of('check_min_per_signal')], counts: 'signals' },
    { what: 'first part', items: [of('first_part_min')] },
    { what: 'expected fault finding', items: [of('fault_chance'), 'fault_find_min'] },
  ];
}

function lineMinutes(inputs: Numbers, { items, counts }: LineItems, of: Counts): number {
  const each = items.reduce((product, item) => product * num(inputs, item), 1);
  return counts === undefined ? each : each * of[counts]!;
}

function minutesOf(inputs: Numbers, lines: readonly LineItems[], of: Counts): number {
  return lines.reduce((sum, line) => sum + lineMinutes(inputs, line, of), 0);
}

function linesOf(inputs: Numbers, lines: readonly LineItems[], of: Counts): MinutesLine[] {
  return lines.map(({ what, ...line }) => ({
    what,
    minutes: lineMinutes(inputs, { what, ...line }, of),
    ...line,
  }));
}

/** One move of the harness to this machine. */
export function harnessLines(inputs: CaseInputs, { signals }: CaseStation): MinutesLine[] {
  return linesOf(inputs, HARNESS_ITEMS, { signals });
}

/** One changeover with so many boxes on the machine. */
export function boxLines(inputs: CaseInputs, boxes: number): MinutesLine[] {
  return linesOf(inputs, BOX_ITEMS, { boxes });
}

/** One changeover with a named connection. */
export function connectionLines(
  inputs: CaseInputs,
  { signals }: CaseStation,
  connection: string,
): MinutesLine[] {
  return linesOf(inputs, connectionItems(connection), { signals });
}

/** Minutes of one move of the harness to this machine. */
export function harnessMinutes(inputs: Numbers, station: Pick<CaseStation, 'signals'>): number {
  return harnessCommonMinutes(inputs) + station.signals * num(inputs, 'check_min_per_signal');
}

/** The part of a move of the harness that is the same for every machine. */
export function harnessCommonMinutes(inputs: Numbers): number {
  return minutesOf(inputs, HARNESS_ITEMS, { signals: 0 });
}

/** Minutes of one changeover with so many boxes on the machine. */
export function boxMinutes(inputs: CaseInputs, boxes: number): number {
  return minutesOf(inputs, BOX_ITEMS, { boxes });
}

/** Minutes of one changeover with a named connection. */
export function connectionMinutes(inputs: CaseInputs, { signals }: CaseStation, connection: string): number {
  return minutesOf(inputs, connectionItems(connection), { signals });
}

/** What one minute of a changeover costs: everyone's labour, and contribution for the share in which the machine stands. */
export function minuteCost(
  inputs: CaseInputs,
  station: CaseStation,
): { labour: number; contribution: number } {
  return {
    labour: personMinute(inputs) * station.people,
    contribution: (lostPerHour(inputs, station) / 60) * station.internalShare,
  };
}

/** One person's minute, burden included. */
export function personMinute(inputs: CaseInputs): number {
  return (num(inputs, 'labour_per_h') * (1 + num(inputs, 'labour_burden_pct') / 100)) / 60;
}

/** Contribution lost by one hour of this machine standing; 0 where its hour is worth nothing. */
export function lostPerHour(inputs: Pick<CaseInputs, 'numbers'>, station: CaseStation): number {
  if (station.standing.source === 'typed') return num(inputs, 'contribution_per_machine_h');
  return contributionOf(inputs, station.standing.lost);
}

/** The loss with other cycle times: straight between the points that were worked out, and no further than the first and last. */
export function atCyclePct(row: LostPart, cyclePct: number): Pick<LostPart, 'perH' | 'free' | 'moved'> {
  const { atCycle } = row;
  if (atCycle.length === 0) return row;
  let above = 0;
  while (above < atCycle.length && atCycle[above]!.cyclePct < cyclePct) above++;
  if (above === 0) return atCycle[0]!;
  if (above === atCycle.length) return atCycle[above - 1]!;
  const low = atCycle[above - 1]!;
  const high = atCycle[above]!;
  const share = (cyclePct - low.cyclePct) / (high.cyclePct - low.cyclePct);
  return {
    perH: low.perH + share * (high.perH - low.perH),
    free: low.free + share * (high.free - low.free),
    moved: low.moved + share * (high.moved - low.moved),
  };
}

/** What the parts of an hour would have brought: only those that would have been sold. A standing machine earns nothing. */
export function contributionOf(inputs: Pick<CaseInputs, 'numbers'>, lost: readonly LostPart[]): number {
  const asked = num(inputs, 'demand_pct') / 100;
  const cyclePct = num(inputs, 'cycle_pct');
  const sum = lost.reduce((total, planned) => {
    const { perH, free, moved } = atCyclePct(planned, cyclePct);
    const share = planned.allSold ? 1 : soldShare({ asked: planned.asked, free, moved }, asked);
    return total + perH * planned.each * share;
  }, 0);
  return (Math.max(0, sum) * num(inputs, 'contribution_pct')) / 100;
}
