/** The floor of the cell: stations to scale that can be moved, the robot's trips, and what a move does to the rate. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { changeTables, desk, inspection, tables } from '../state/store.js';
import { FloorDrawing } from './floor-drawing.js';
import { chosen, snapM, zoom } from './floor-state.js';
import { distanceM, leastCircle } from './least-circle.js';
import { PlaceFields } from './place-fields.js';
import { PlayControls } from './play-controls.js';
import { placedStations, withPlacesForAll } from './positions.js';
import { viewOf } from './view.js';

/** Radius for stations that have no place yet. */
const FIRST_RADIUS_M = 1.5;

export function FloorPanel() {
  const place = useRef<HTMLDivElement>(null);
  const [widthPx, setWidth] = useState(600);
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) =>
      setWidth(Math.max(240, Math.floor(entry!.contentRect.width))),
    );
    watch.observe(place.current!);
    return () => watch.disconnect();
  }, []);
  const stations = placedStations(tables.value);
  const kept = placedStations(desk.value.tables).flatMap(({ at }) => at ?? []);
  // The view follows the places that are kept, so that it stands still while something is dragged.
  const view = viewOf(kept, widthPx, Math.round(Math.min(480, Math.max(300, widthPx * 0.7))), zoom.value);
  // Without a place there is nothing to draw; the notes offer places.
  const hasPlaces = stations.some(({ at }) => at !== null);
  return (
    <>
      <p class="buttons floor-tools" hidden={!hasPlaces}>
        <button type="button" onClick={() => (zoom.value = Math.min(4, zoom.value * 1.25))}>
          Zoom in
        </button>
        <button type="button" onClick={() => (zoom.value = Math.max(0.25, zoom.value / 1.25))}>
          Zoom out
        </button>
        <label>
          Snap{' '}
          <select
            value={String(snapM.value)}
            onChange={({ currentTarget: { value } }) => (snapM.value = Number(value))}
          >
            {['0', '0.05', '0.1', '0.25', '0.5'].map((m) => (
              <option key={m} value={m}>
                {m === '0' ? 'off' : `${m} m`}
              </option>
            ))}
          </select>
        </label>
      </p>
      <div ref={place} class={hasPlaces ? 'floor' : ''}>
        {hasPlaces && <FloorDrawing stations={stations} view={view} />}
      </div>
      <PlayControls />
      <PlaceFields stations={stations} />
      <Notes />
    </>
  );
}

/** What the drawing cannot show, and whether places count at all. */
function Notes() {
  const stations = placedStations(tables.value);
  const without = stations.filter(({ at }) => at === null);
  const spots = stations.flatMap(({ at }) => at ?? []);
  const circle = leastCircle(spots);
  const robot = inspection.value.cell?.robot;
  const far = circle === null ? null : Math.max(...spots.map((spot) => distanceM(circle, spot)));
  return (
    <>
      {far !== null && spots.length > 1 && (
        <p class="note">
          Reach: a robot in the middle of the dashed circle reaches every station with {far.toFixed(2)} m. Its
          real reach, guards and safe distances are for competent people to work out.
        </p>
      )}
      {robot?.speedMS === null && (
        <p class="note">
          Places do not change the times of this cell: robot.csv has no speed_m_s, so that travel comes from
          travel.csv or travel_s.
        </p>
      )}
      {without.length > 0 && (
        <p>
          Without a place: {without.map(({ name }) => name).join(', ')}.{' '}
          <button
            type="button"
            onClick={() => {
              changeTables((now) => withPlacesForAll(now, FIRST_RADIUS_M), 'All stations have a place.');
              chosen.value = without[0]!.line;
            }}
          >
            Give them places on a circle
          </button>
        </p>
      )}
    </>
  );
}
