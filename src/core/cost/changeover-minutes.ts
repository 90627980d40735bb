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

/** Moving the harness: unplug, carry, route, plug, check every signal, first part, expected fault finding. */
export function harnessLines(inputs: CaseInputs, station: CaseStation): MinutesLine[] {
  const n = (item: string) => num(inputs, item);
  return [
    line('plugging', n('harness_connectors') * n('harness_min_per_connector'), [
      'harness_connectors',
      'harness_min_per_connector',
    ]),
    line('carrying', n('harness_carry_min'), ['harness_carry_min']),
    line('routing', n('harness_route_min'), ['harness_route_min']),
    line('checking the machine’s identity', n('identity_check_harness_min'), ['identity_check_harness_min']),
    {
      ...line('checking signals', station.signals * n('check_min_per_signal'), ['check_min_per_signal']),
      counts: 'signals',
    },
    line('first part', n('first_part_harness_min'), ['first_part_harness_min']),
    line('expected fault finding', n('fault_chance_harness') * n('fault_find_min'), [
      'fault_chance_harness',
      'fault_find_min',
    ]),
  ];
}

/** Boxes that stay on the machine: one plug for each, a shorter check, fewer faults. */
export function boxLines(inputs: CaseInputs, boxes: number): MinutesLine[] {
  const n = (item: string) => num(inputs, item);
  return [
    {
      ...line('plugging', boxes * n('box_plug_min'), ['box_plug_min']),
      counts: 'boxes',
    },
    line('checking the machine’s identity', n('identity_check_box_min'), ['identity_check_box_min']),
    line('checking', n('box_check_min'), ['box_check_min']),
    line('first part', n('first_part_box_min'), ['first_part_box_min']),
    line('expected fault finding', n('fault_chance_box') * n('fault_find_min'), [
      'fault_chance_box',
      'fault_find_min',
    ]),
  ];
}

function line(what: string, minutes: number, items: readonly string[]): MinutesLine {
  return { what, minutes, items };
}

/** Minutes of one move of the harness to this machine. The same sum as `harnessLines`, without the lines. */
export function harnessMinutes(inputs: Numbers, station: Pick<CaseStation, 'signals'>): number {
  return harnessCommonMinutes(inputs) + station.signals * num(inputs, 'check_min_per_signal');
}

/** The part of a move of the harness that is the same for every machine. */
export function harnessCommonMinutes(inputs: Numbers): number {
  return (
    num(inputs, 'harness_connectors') * num(inputs, 'harness_min_per_connector') +
    num(inputs, 'harness_carry_min') +
    num(inputs, 'harness_route_min') +
    num(inputs, 'identity_check_harness_min') +
    num(inputs, 'first_part_harness_min') +
    num(inputs, 'fault_chance_harness') * num(inputs, 'fault_find_min')
  );
}

/** Minutes of one changeover with so many boxes on the machine. The same sum as `boxLines`, without the lines. */
export function boxMinutes(inputs: CaseInputs, boxes: number): number {
  return (
    boxes * num(inputs, 'box_plug_min') +
    num(inputs, 'identity_check_box_min') +
    num(inputs, 'box_check_min') +
    num(inputs, 'first_part_box_min') +
    num(inputs, 'fault_chance_box') * num(inputs, 'fault_find_min')
  );
}

/** Minutes of one changeover with a named connection, line by line. */
export function connectionLines(inputs: CaseInputs, station: CaseStation, connection: string): MinutesLine[] {
  const of = (item: string) => `${connection}.${item}`;
  const n = (item: string) => num(inputs, of(item));
  return [
    line('plugging', n('plug_min'), [of('plug_min')]),
    line('checking the machine’s identity', n('identity_check_min'), [of('identity_check_min')]),
    line('checking', n('check_min'), [of('check_min')]),
    {
      ...line('checking signals', station.signals * n('check_min_per_signal'), [of('check_min_per_signal')]),
      counts: 'signals',
    },
    line('first part', n('first_part_min'), [of('first_part_min')]),
    line('expected fault finding', n('fault_chance') * num(inputs, 'fault_find_min'), [
      of('fault_chance'),
      'fault_find_min',
    ]),
  ];
}

/** The same sum as `connectionLines`, without the lines. */
export function connectionMinutes(inputs: CaseInputs, station: CaseStation, connection: string): number {
  const n = (item: string) => num(inputs, `${connection}.${item}`);
  return (
    n('plug_min') +
    n('identity_check_min') +
    n('check_min') +
    station.signals * n('check_min_per_signal') +
    n('first_part_min') +
    n('fault_chance') * num(inputs, 'fault_find_min')
  );
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

/** The loss with other cycle times: straight between the points that were worked out, and no further than the last of them. */
export function atCyclePct(row: LostPart, cyclePct: number): LostPart {
  const { atCycle } = row;
  if (atCycle.length === 0) return row;
  const above = atCycle.findIndex((point) => point.cyclePct >= cyclePct);
  if (above === -1) return { ...row, ...atCycle[atCycle.length - 1] };
  const [low, high] = [atCycle[Math.max(0, above - 1)]!, atCycle[above]!];
  const span = high.cyclePct - low.cyclePct;
  const share = span === 0 ? 0 : Math.max(0, (cyclePct - low.cyclePct) / span);
  const between = (of: 'perH' | 'free' | 'moved') => low[of] + share * (high[of] - low[of]);
  return { ...row, perH: between('perH'), free: between('free'), moved: between('moved') };
}

/** What the parts of an hour would have brought: only those that would have been sold. A standing machine earns nothing. */
export function contributionOf(inputs: Pick<CaseInputs, 'numbers'>, lost: readonly LostPart[]): number {
  const asked = num(inputs, 'demand_pct') / 100;
  const cyclePct = num(inputs, 'cycle_pct');
  const sum = lost.reduce((total, planned) => {
    const row = atCyclePct(planned, cyclePct);
    return total + row.perH * row.each * (row.allSold ? 1 : soldShare(row, asked));
  }, 0);
  return (Math.max(0, sum) * num(inputs, 'contribution_pct')) / 100;
}
