/** Keys that work anywhere on the page: undo and redo, also in fields once their change is kept. */
import { redo, undo } from '../state/store.js';

export function listenForKeys(): void {
  document.addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const isUndo = key === 'z' && !event.shiftKey;
    const isRedo = key === 'y' || (key === 'z' && event.shiftKey);
    if (!isUndo && !isRedo) return;
    if (isTyping(event.target)) return;
    event.preventDefault();
    if (isUndo) undo();
    else redo();
  });
}

/** A field with a change that is not kept yet takes back its own typing. */
function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLTextAreaElement) return true;
  return target instanceof HTMLInputElement && target.type === 'text' && target.value !== target.defaultValue;
}
