'use client';

import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import styles from './picker.module.css';

export interface Pickable {
  id: string;
  /** What is typed and matched. */
  text: string;
  /** A second line. */
  note?: string;
}

/**
 * A field that lists what matches while one types; Enter takes the marked one, arrows move the mark
 * (the combobox pattern of the ARIA practices guide). With `keeps` the one taken stays in the field,
 * without it the field empties for the next.
 */
export function Picker({
  label,
  hint,
  items,
  onPick,
  onType,
  behind = false,
  keeps,
  nothing,
  autoFocus = false,
}: {
  label: string;
  hint: string;
  items: readonly Pickable[];
  onPick: (id: string) => void;
  /** Called with what is typed, where the list comes from the server. */
  onType?: (text: string) => void;
  /** The list is still that of an earlier text: nothing is taken from it by a key before it has caught up. */
  behind?: boolean;
  /** The id that stays in the field. */
  keeps?: string;
  /** What the list says when nothing matches. */
  nothing: string;
  autoFocus?: boolean;
}) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const list = useRef<HTMLDivElement>(null);
  /** Null: nobody is typing, the field shows what it keeps. */
  const [typed, setTyped] = useState<string | null>(null);
  const [open, setOpen] = useState(false);
  const [mark, setMark] = useState(0);
  /** Enter was pressed while the list was behind: its first is taken once it is there. */
  const [waits, setWaits] = useState(false);
  const kept = items.find((item) => item.id === keeps)?.text ?? '';
  const shown = onType === undefined ? matching(items, typed ?? '') : items;
  const at = Math.min(mark, shown.length - 1);

  // Once, when the sheet is opened: the first question has the hand on it.
  useEffect(() => {
    if (autoFocus) field.current?.focus();
  }, [autoFocus]);

  useEffect(() => {
    if (open) list.current?.children[at]?.scrollIntoView({ block: 'nearest' });
  }, [open, at]);

  function type(text: string) {
    setTyped(text);
    setWaits(false);
    setMark(0);
    setOpen(true);
    onType?.(text);
  }

  function close() {
    setOpen(false);
    setWaits(false);
    setTyped(null);
    onType?.('');
  }

  function take(item: Pickable | undefined) {
    if (item === undefined) return;
    onPick(item.id);
    close();
  }

  useEffect(() => {
    if (!waits || behind) return;
    setWaits(false);
    take(shown[at]);
  });

  function onKey(event: KeyboardEvent) {
    const steps: Record<string, number> = { ArrowDown: 1, ArrowUp: -1 };
    const step = steps[event.key];
    if (step !== undefined) {
      event.preventDefault();
      setOpen(true);
      if (open) setMark(Math.min(Math.max(at + step, 0), shown.length - 1));
    } else if (event.key === 'Enter' && open && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      if (behind) setWaits(true);
      else take(shown[at]);
    } else if (event.key === 'Escape' && open) {
      event.preventDefault();
      close();
    }
  }

  return (
    <div className={styles.cell}>
      <label className={styles.label} htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        className={styles.input}
        role="combobox"
        aria-expanded={open}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={open && shown.length > 0 ? `${id}-${at}` : undefined}
        aria-describedby={`${id}-hint`}
        autoComplete="off"
        spellCheck={false}
        ref={field}
        value={typed ?? kept}
        onChange={(event) => type(event.currentTarget.value)}
        onFocus={(event) => event.currentTarget.select()}
        onClick={() => setOpen(true)}
        onKeyDown={onKey}
        onBlur={close}
      />
      <p className={styles.hint} id={`${id}-hint`}>
        {hint}
      </p>
      <div className={styles.popover} hidden={!open}>
        {shown.length === 0 ? <p className={styles.nothing}>{nothing}</p> : null}
        <div
          className={styles.list}
          id={`${id}-list`}
          role="listbox"
          aria-label={label}
          ref={list}
          tabIndex={-1}
        >
          {shown.map((item, index) => (
            // The keys of this pattern are the input's; the list only takes the pointer.
            <div
              key={item.id}
              id={`${id}-${index}`}
              className={styles.item}
              role="option"
              tabIndex={-1}
              aria-selected={index === at}
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => take(item)}
              onKeyDown={onKey}
            >
              <span>{item.text}</span>
              {item.note === undefined ? null : <span className={styles.note}>{item.note}</span>}
            </div>
          ))}
        </div>
      </div>
      <p className="spoken" role="status">
        {open ? `${shown.length} found` : ''}
      </p>
    </div>
  );
}

/** Every word typed must be found, in any order: "117 dip" finds "QQ-117 Dipper 2". */
function matching(items: readonly Pickable[], typed: string): readonly Pickable[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return items;
  return items.filter(({ text, note = '' }) => {
    const whole = `${text} ${note}`.toLowerCase();
    return words.every((word) => whole.includes(word));
  });
}
