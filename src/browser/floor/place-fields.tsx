/** The places as numbers: what dragging does, without a pointer. */
import { changeTables } from '../state/store.js';
import { chosen } from './floor-state.js';
import { type Placed, withPlace } from './positions.js';

export function PlaceFields({ stations }: { readonly stations: readonly Placed[] }) {
  const station = stations.find(({ line }) => line === chosen.value) ?? stations[0];
  if (station === undefined) return null;
  const { line, name, at } = station;
  const set = (axis: 'xM' | 'yM', text: string): void => {
    const metres = Number(text.replace(',', '.'));
    if (text.trim() === '' || !Number.isFinite(metres)) return;
    const to = { xM: at?.xM ?? 0, yM: at?.yM ?? 0, [axis]: metres };
    changeTables((now) => withPlace(now, line, to), `${name} is moved.`);
  };
  return (
    <fieldset class="place">
      <legend>Move a station by numbers</legend>
      <label>
        Station{' '}
        <select
          value={String(line)}
          onChange={({ currentTarget }) => (chosen.value = Number(currentTarget.value))}
        >
          {stations.map((other) => (
            <option key={other.line} value={String(other.line)}>
              {other.name}
            </option>
          ))}
        </select>
      </label>
      {(['xM', 'yM'] as const).map((axis) => (
        <label key={axis}>
          {axis === 'xM' ? 'x' : 'y'}, m{' '}
          <input
            inputMode="decimal"
            size={6}
            value={at === null ? '' : String(at[axis])}
            onChange={({ currentTarget }) => set(axis, currentTarget.value)}
          />
        </label>
      ))}
    </fieldset>
  );
}
