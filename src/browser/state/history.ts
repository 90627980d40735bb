/** Undo and redo as plain data: every state is one immutable value, so that a step costs no more than what changed. */

/** Steps that can be taken back. */
const MOST_STEPS = 1000;

export interface History<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
}

export function begun<T>(now: T): History<T> {
  return { past: [], now, future: [] };
}

/** The history after a step; a step that changes nothing is none. */
export function stepped<T>({ past, now, future }: History<T>, next: T): History<T> {
  if (next === now) return { past, now, future };
  return { past: [...past, now].slice(-MOST_STEPS), now: next, future: [] };
}

export function undone<T>(history: History<T>): History<T> {
  const { past, now, future } = history;
  const before = past.at(-1);
  return before === undefined ? history : { past: past.slice(0, -1), now: before, future: [now, ...future] };
}

export function redone<T>(history: History<T>): History<T> {
  const { past, now, future } = history;
  const [next, ...rest] = future;
  return next === undefined ? history : { past: [...past, now], now: next, future: rest };
}
