/** What the drawing of the floor remembers that is no part of the cell. */
import { signal } from '@preact/signals';

/** Line of stations.csv of the station that is chosen. */
export const chosen = signal<number | null>(null);
/** Metres between the places that a dragged station takes; 0 for none. */
export const snapM = signal(0.1);
export const zoom = signal(1);
/** A station that is dragged: its line, and the rate before. */
export const held = signal<{ readonly line: number; readonly rateBefore: number | null } | null>(null);
/** Moment of the robot cycle that is shown, seconds; null while it is not played. */
export const playedS = signal<number | null>(null);
