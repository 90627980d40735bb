/** Keeps the desk in this browser, and nowhere else; where the browser keeps nothing, the page works without. */
import { effect } from '@preact/signals';
import { type Desk, deskOf, isEmpty, savedForm } from '../state/desk.js';
import { desk } from '../state/store.js';

const KEY = 'roundsman-desk';
/** Typing is over before it is kept. */
const AFTER_MS = 400;

export function savedDesk(): Desk | null {
  try {
    const text = localStorage.getItem(KEY);
    const saved = text === null ? null : deskOf(JSON.parse(text));
    return saved === null || isEmpty(saved) ? null : saved;
  } catch {
    return null;
  }
}

/** From now on each change is kept. */
export function keepSaving(): void {
  const first = desk.value;
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const now = desk.value;
    if (now === first || isEmpty(now)) return;
    clearTimeout(timer);
    timer = setTimeout(() => keep(now), AFTER_MS);
  });
}

function keep(now: Desk): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(savedForm(now)));
  } catch {
    // A browser that keeps nothing, or has no room: saving as a file remains.
  }
}
