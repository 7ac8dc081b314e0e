'use client';

import { useId } from 'react';
import { Button } from '../../components/Button.tsx';
import { ShortageNote } from '../stores/shortage-note.tsx';
import styles from './chosen-lines.module.css';
import { usableQuantity, type WantedPart, type WantedTask } from './use-wanted.ts';

/** What was added by hand, each with the way to take it off again; parts with how many. */
export function ChosenLines({
  tasks,
  parts,
  onQuantity,
  onRemove,
}: {
  tasks: readonly WantedTask[];
  parts: readonly WantedPart[];
  onQuantity: (partId: string, quantity: string) => void;
  onRemove: (id: string) => void;
}) {
  if (tasks.length + parts.length === 0) return null;
  return (
    <ul className={styles.list} aria-label="Added to the quote">
      {tasks.map(({ id, title }) => (
        <li key={id}>
          <span>{title}</span>
          <span />
          <TakeOff title={title} onPress={() => onRemove(id)} />
        </li>
      ))}
      {parts.map((part) => (
        <li key={part.id}>
          <span>
            {part.title} <span className={styles.number}>{part.number}</span>
            {usableQuantity(part.quantity) ? (
              <ShortageNote partId={part.id} wanted={part.quantity} />
            ) : null}
          </span>
          <Quantity part={part} onQuantity={onQuantity} />
          <TakeOff title={part.title} onPress={() => onRemove(part.id)} />
        </li>
      ))}
    </ul>
  );
}

function Quantity({
  part,
  onQuantity,
}: {
  part: WantedPart;
  onQuantity: (partId: string, quantity: string) => void;
}) {
  const id = useId();
  const usable = usableQuantity(part.quantity);
  return (
    <span className={styles.quantity}>
      <label className="spoken" htmlFor={id}>
        How many of {part.title}, {part.unit}
      </label>
      <input
        id={id}
        inputMode="decimal"
        value={part.quantity}
        aria-invalid={!usable}
        aria-describedby={usable ? undefined : `${id}-wrong`}
        onChange={(event) => onQuantity(part.id, event.currentTarget.value)}
        onFocus={(event) => event.currentTarget.select()}
      />
      <span>{part.unit}</span>
      {usable ? null : (
        <span className={styles.wrong} id={`${id}-wrong`} role="alert">
          needed: more than 0, at most 3 decimals
        </span>
      )}
    </span>
  );
}

function TakeOff({ title, onPress }: { title: string; onPress: () => void }) {
  return (
    <Button kind="plain" onClick={onPress}>
      take off<span className="spoken"> {title}</span>
    </Button>
  );
}
