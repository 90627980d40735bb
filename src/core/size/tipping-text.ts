/** Which input tips the choice of the number of machines soonest, in a sentence. */
import type { BreakSide, SizeBreakPoint } from './size-break-points.js';

interface Tip {
  readonly point: SizeBreakPoint;
  readonly side: BreakSide;
}

const NAMES: Readonly<Record<SizeBreakPoint['element'], string>> = {
  cycle: 'machine cycle time',
  load: 'load times',
  unload: 'unload times',
  travel: 'travel times',
  contribution: 'contribution of a part',
  'machine cost': 'cost of a machine hour',
  'robot cost': 'cost of a robot hour',
  labour: 'cost of people',
  'allowed waiting': 'highest acceptable waiting',
};

/** @returns null where no input tips it within the limits looked at */
export function tippingText(points: readonly SizeBreakPoint[]): string | null {
  if (points.length === 0) return null;
  const tips = points.flatMap((point): Tip[] =>
    [point.below, point.above].flatMap((side) => (side === null ? [] : [{ point, side }])),
  );
  const nearest = tips.reduce<Tip | null>(
    (best, tip) =>
      best === null || Math.abs(tip.side.changePct) < Math.abs(best.side.changePct) - 1e-9 ? tip : best,
    null,
  );
  const [{ fromPct, toPct }] = points as [SizeBreakPoint];
  if (nearest === null)
    return `No input alone changes the choice, each tried from ${fromPct}% to +${toPct}%.`;
  const { point, side } = nearest;
  const value = side.value === null ? '' : ` (${amount(side.value)}${unitText(point.unit)})`;
  const kind = point.unit === 's' ? ['longer', 'shorter'] : ['higher', 'lower'];
  const change = `${Math.abs(side.changePct).toFixed(1)}% ${side.changePct > 0 ? kind[0] : kind[1]}`;
  const count = side.machines === 1 ? 'one machine' : `${side.machines} machines`;
  return `Most sensitive input: ${NAMES[point.element]}. At ${change}${value}: ${count}.`;
}

function amount(value: number): string {
  return `${Number(value.toPrecision(4))}`;
}

function unitText(unit: SizeBreakPoint['unit']): string {
  if (unit === 's') return ' s';
  if (unit === '%') return '%';
  return unit === 'money/h' ? ' an hour' : '';
}
