/** The keys of one sheet: which, and what each does there. */
export type SheetKeys = readonly { keys: string; does: string }[];

const storageKey = 'fairlead.single-keys';

/** Whether keys that are pressed alone do something on this device. On until a person turns them off. */
export function singleKeysOn(): boolean {
  try {
    return localStorage.getItem(storageKey) !== 'off';
  } catch {
    return true;
  }
}

/** Turns keys pressed alone on or off, and remembers it where the browser allows (WCAG 2.2, 2.1.4). */
export function turnSingleKeys(on: boolean): void {
  try {
    localStorage.setItem(storageKey, on ? 'on' : 'off');
  } catch {
    // Private windows may refuse storage.
  }
  window.dispatchEvent(new Event('fairlead:single-keys'));
}

/** Calls back when they are turned on or off; returns the way to stop. */
export function watchSingleKeys(changed: () => void): () => void {
  window.addEventListener('fairlead:single-keys', changed);
  return () => window.removeEventListener('fairlead:single-keys', changed);
}

/** Something into which letters are written, or which uses them itself. */
const writes =
  'input, textarea, select, [contenteditable]:not([contenteditable="false"]), [role="combobox"], [role="listbox"]';

/**
 * Whether a key pressed alone is meant for the sheet: not while somebody writes, not with another key held, not with a
 * dialog open, not while a word is being composed, and not where they are turned off.
 */
export function isForSheet(
  event: Pick<
    KeyboardEvent,
    'target' | 'ctrlKey' | 'metaKey' | 'altKey' | 'isComposing' | 'defaultPrevented'
  >,
): boolean {
  if (event.defaultPrevented || event.isComposing) return false;
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.target instanceof Element && event.target.closest(writes) !== null) return false;
  return document.querySelector('dialog[open]') === null && singleKeysOn();
}
