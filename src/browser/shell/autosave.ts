/** Keeps the last desks in this browser, and nowhere else; where the browser keeps nothing, the page works without. */
import { effect } from '@preact/signals';
import { type Desk, deskOf, isEmpty, savedForm } from '../state/desk.js';
import { desk } from '../state/store.js';

const KEY = 'roundsman-desks';
/** Typing is over before it is kept. */
const AFTER_MS = 400;
/** Desks of so many names; the one left alone the longest gives way. */
const MOST_DESKS = 5;

/** The desks that are kept, each of another name, the last one first. */
export function savedDesks(): readonly Desk[] {
  try {
    const saved: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    if (!Array.isArray(saved)) return [];
    return saved.map(deskOf).filter((one) => one !== null && !isEmpty(one)) as Desk[];
  } catch {
    return [];
  }
}

/** What is kept of this name, where it is not what is open. */
export function otherSaved(open: Desk): Desk | null {
  const saved = savedDesks().find(({ name }) => name === open.name);
  return saved === undefined || textOf(saved) === textOf(open) ? null : saved;
}

function textOf(of: Desk): string {
  return JSON.stringify(savedForm(of));
}

/** From now on each change is kept. */
export function keepSaving(): void {
  const first = desk.value;
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const now = desk.value;
    clearTimeout(timer);
    if (now === first || isEmpty(now)) return;
    timer = setTimeout(() => keep(now), AFTER_MS);
  });
}

function keep(now: Desk): void {
  try {
    const others = savedDesks().filter(({ name }) => name !== now.name);
    const kept = [now, ...others].slice(0, MOST_DESKS).map(savedForm);
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // A browser that keeps nothing, or has no room: saving as a file remains.
  }
}
