/** The page's one state and the actions on it; everything that is shown follows from here. */
import { computed, signal } from '@preact/signals';
import type { Complaint } from '../../core/model/complaint.js';
import { inspectTables, type Tables } from '../../tables/inspect-tables.js';
import { type Desk, EMPTY_DESK } from './desk.js';
import { begun, type History, redone, stepped, undone } from './history.js';

/** A desk, and in words the step that led to it. */
interface Step {
  readonly desk: Desk;
  readonly said: string;
}

const history = signal<History<Step>>(begun({ desk: EMPTY_DESK, said: '' }));

/** The tables while something is dragged; null otherwise. It is no step of its own. */
const dragged = signal<Tables | null>(null);

/** What was last done, for those who do not see it; read out politely. */
export const status = signal('');

export const desk = computed(() => history.value.now.desk);
export const canUndo = computed(() => history.value.past.length > 0);
export const canRedo = computed(() => history.value.future.length > 0);
export const isDragging = computed(() => dragged.value !== null);

/** The tables as they count now. */
export const tables = computed(() => dragged.value ?? desk.value.tables);

export const inspection = computed(() => inspectTables(tables.value));
export const errors = computed(() => inspection.value.complaints.filter(isError));

/** The pinned states whose tables have no error. */
export const variantCells = computed(() =>
  desk.value.variants.flatMap(({ name, tables: of }) => {
    const { cell } = inspectTables(of);
    return cell === null ? [] : [{ name, cell }];
  }),
);

const isError = ({ severity }: Complaint): boolean => severity === 'error';

/** One step, which undo takes back. */
export function act(change: (desk: Desk) => Desk, said: string): void {
  dragged.value = null;
  const next = change(desk.value);
  // Said first: what follows from the new desk is said after it.
  status.value = said;
  if (next !== desk.value) history.value = stepped(history.value, { desk: next, said });
}

export function changeTables(change: (tables: Tables) => Tables, said: string): void {
  act((now) => {
    const changed = change(now.tables);
    return changed === now.tables ? now : { ...now, tables: changed };
  }, said);
}

/** Shows tables that are not kept yet; null goes back to those that are. */
export function drag(shown: Tables | null): void {
  dragged.value = shown;
}

/** Another desk in place of this one; a step like any other, so that nothing is lost. */
export function openDesk(opened: Desk, said: string): void {
  act(() => opened, said);
}

/** The first desk of the page: there is nothing before it. */
export function beginWith(first: Desk, said = ''): void {
  status.value = said;
  history.value = begun({ desk: first, said });
}

export function undo(): void {
  if (!canUndo.value) return;
  const { said } = history.value.now;
  dragged.value = null;
  status.value = `Undone: ${said}`;
  history.value = undone(history.value);
}

export function redo(): void {
  if (!canRedo.value) return;
  dragged.value = null;
  const next = redone(history.value);
  status.value = `Done again: ${next.now.said}`;
  history.value = next;
}
