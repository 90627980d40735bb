/** The drawing: trips, stations to drag or to move with the arrow keys, the robot where it is played. */

import { stationShape, tripsOf } from '../../render/charts/cell-plan-chart.js';
import { tripLine } from '../../render/charts/trip-line.js';
import { numberText } from '../../render/numbers.js';
import { shownSchedule } from '../state/answers.js';
import { changeTables, desk, drag } from '../state/store.js';
import { chosen, held, playedS, snapM } from './floor-state.js';
import { leastCircle } from './least-circle.js';
import { type Placed, type Spot, snapped, withPlace } from './positions.js';
import { robotAt, stationAt } from './robot-at.js';
import { toMetres, toPx, type View } from './view.js';

interface DrawingProps {
  readonly stations: readonly Placed[];
  readonly view: View;
}

export function FloorDrawing({ stations, view }: DrawingProps) {
  const placed = stations.flatMap(({ at, ...station }) => (at === null ? [] : [{ ...station, at }]));
  const circle = leastCircle(placed.map(({ at }) => at));
  const middle = circle === null ? null : toPx(view, circle);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no field set
    <svg
      viewBox={`0 0 ${view.widthPx} ${view.heightPx}`}
      role="group"
      aria-label="The floor of the cell from above, to scale. Each station can be moved with the arrow keys."
    >
      {circle !== null && placed.length > 1 && (
        <circle class="plan" cx={middle!.x} cy={middle!.y} r={circle.radiusM * view.perM} />
      )}
      <Trips placed={placed} view={view} />
      {placed.map((station) => (
        <Station key={station.line} station={station} view={view} />
      ))}
      <Robot placed={placed} view={view} />
      <ScaleBar view={view} />
      <HeldRate placed={placed} view={view} />
    </svg>
  );
}

type WithPlace = Omit<Placed, 'at'> & { readonly at: Spot };
interface PlacedProps {
  readonly placed: readonly WithPlace[];
  readonly view: View;
}

function Trips({ placed, view }: PlacedProps) {
  const schedule = shownSchedule();
  if (schedule === null) return null;
  const spots = placed.map(({ name, at }) => ({ name, ...toPx(view, at) }));
  const drawn = tripsOf(schedule).filter(
    ({ from, to }) => spots.some(({ name }) => name === from) && spots.some(({ name }) => name === to),
  );
  const most = Math.max(1, ...drawn.map(({ times }) => times));
  return <Drawn svg={[...drawn].reverse().map((trip) => tripLine(trip, spots, most))} />;
}

/** Marks of the report's charts, which make their texts safe. */
function Drawn({ svg }: { readonly svg: readonly string[] }) {
  return <g dangerouslySetInnerHTML={{ __html: svg.join('') }} />;
}

const SIZE_PX = 12;
const KEYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function Station({ station, view }: { readonly station: WithPlace; readonly view: View }) {
  const { name, kind, line, at } = station;
  const { x, y } = toPx(view, at);
  const state = stateOf(name);
  const words = `${name}, ${kind}, x ${at.xM} m, y ${at.yM} m${state === null ? '' : `, ${state}`}`;
  const moved = (event: PointerEvent): Spot => {
    const svg = (event.currentTarget as SVGGElement).ownerSVGElement!;
    const box = svg.getBoundingClientRect();
    const perPx = view.widthPx / box.width;
    return snapped(
      toMetres(view, (event.clientX - box.left) * perPx, (event.clientY - box.top) * perPx),
      snapM.value,
    );
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a part of a drawing cannot be a button element
    <g
      class={`spot ${chosen.value === line ? 'chosen' : ''} ${state ?? ''}`}
      role="button"
      tabIndex={0}
      aria-label={words}
      aria-pressed={chosen.value === line}
      onFocus={() => {
        chosen.value = line;
      }}
      // A finger on a station moves it and not the page; within a drawing, the style alone does not see to it.
      onTouchStart={(event) => event.preventDefault()}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        chosen.value = line;
        held.value = { line, rateBefore: shownSchedule()?.partsPerH.total ?? null };
      }}
      onPointerMove={(event) => {
        if (held.value?.line === line) drag(withPlace(desk.value.tables, line, moved(event)));
      }}
      onPointerUp={(event) => {
        if (held.value?.line !== line) return;
        held.value = null;
        const to = moved(event);
        changeTables(
          (now) => withPlace(now, line, to),
          `${name} is at x ${to.xM.toFixed(2)}, y ${to.yM.toFixed(2)} m.`,
        );
      }}
      onPointerCancel={() => {
        held.value = null;
        drag(null);
      }}
      onKeyDown={(event) => {
        const step = KEYS[event.key];
        if (step === undefined) return;
        event.preventDefault();
        const by = (snapM.value || 0.01) * (event.shiftKey ? 5 : 1);
        const to = snapped({ xM: at.xM + step[0] * by, yM: at.yM + step[1] * by }, snapM.value);
        changeTables(
          (now) => withPlace(now, line, to),
          `${name} is at x ${to.xM.toFixed(2)}, y ${to.yM.toFixed(2)} m.`,
        );
      }}
    >
      <circle class="touch" cx={x} cy={y} r={24} />
      <Drawn svg={[stationShape(kind, x, y, SIZE_PX)]} />
      <text class="over" x={x} y={nameY(view, y)} text-anchor="middle">
        {name}
      </text>
    </g>
  );
}

/** The name is on the far side of the middle, where no trip goes. */
function nameY(view: View, y: number): number {
  return isAbove(view, y) ? y - SIZE_PX - 9 : y + SIZE_PX + 17;
}

function isAbove({ heightPx }: View, y: number): boolean {
  return y < heightPx / 2 - SIZE_PX;
}

function stateOf(name: string): string | null {
  const [schedule, timeS] = [shownSchedule(), playedS.value];
  return schedule === null || timeS === null ? null : stationAt(schedule, name, timeS);
}

function Robot({ placed, view }: PlacedProps) {
  const [schedule, timeS] = [shownSchedule(), playedS.value];
  if (schedule === null || timeS === null) return null;
  const moment = robotAt(schedule, timeS);
  const [from, to] = [moment.from, moment.to].map(
    (name) => placed.find((station) => station.name === name)?.at,
  );
  if (from === undefined || to === undefined) return null;
  const at = {
    xM: from.xM + (to.xM - from.xM) * moment.share,
    yM: from.yM + (to.yM - from.yM) * moment.share,
  };
  const { x, y } = toPx(view, at);
  return (
    <g class="playing">
      <circle class="robot" cx={x} cy={y} r={8} />
      {moment.isLoaded && <rect class="work" x={x - 4} y={y - 4} width={8} height={8} />}
    </g>
  );
}

function ScaleBar({ view }: { readonly view: View }) {
  const metres = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50].find((m) => m * view.perM >= 50) ?? 100;
  const y = view.heightPx - 12;
  return (
    <g>
      <line class="line" x1={10} y1={y} x2={10 + metres * view.perM} y2={y} />
      <text class="tick" x={16 + metres * view.perM} y={y + 4}>
        {metres} m
      </text>
    </g>
  );
}

/** The rate beside what is dragged, with the difference to before. */
function HeldRate({ placed, view }: PlacedProps) {
  const station = placed.find(({ line }) => line === held.value?.line);
  const rate = shownSchedule()?.partsPerH.total;
  if (station === undefined || rate === undefined) return null;
  const { x, y } = toPx(view, station.at);
  const before = held.value?.rateBefore ?? null;
  const by = before === null ? 0 : rate - before;
  const change = Math.abs(by) < 0.005 ? '' : ` (${by > 0 ? '+' : ''}${numberText(by, 2)})`;
  const isRight = x > view.widthPx / 2;
  return (
    <text
      class="over strong held-rate"
      x={isRight ? x - 20 : x + 20}
      y={isAbove(view, y) ? y + 26 : y - 18}
      text-anchor={isRight ? 'end' : 'start'}
    >
      {numberText(rate, 1)} parts/h{change}
    </text>
  );
}
