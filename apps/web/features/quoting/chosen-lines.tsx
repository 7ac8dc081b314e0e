'use client';

import { useId } from 'react';
import { Button } from '../../components/Button.tsx';
import { ShortageNote } from '../stores/shortage-note.tsx';
import { chargeWords, pricedWords } from './charge-words.ts';
import styles from './chosen-lines.module.css';
import {
  priceOf,
  type SoldTyped,
  usableQuantity,
  type WantedCharge,
  type WantedPart,
  type WantedTask,
} from './use-wanted.ts';

/** What was added by hand, each with the way to take it off again; parts with how many. */
export function ChosenLines({
  tasks,
  parts,
  charges,
  currency,
  onSell,
  onQuantity,
  onRemove,
}: {
  tasks: readonly WantedTask[];
  parts: readonly WantedPart[];
  charges: readonly WantedCharge[];
  currency: string;
  onSell: (taskId: string, sold: SoldTyped | undefined) => void;
  onQuantity: (partId: string, quantity: string) => void;
  onRemove: (id: string) => void;
}) {
  if (tasks.length + parts.length + charges.length === 0) return null;
  return (
    <ul className={styles.list} aria-label="Added to the quote">
      {tasks.map((task) => (
        <li key={task.id}>
          <span>{task.title}</span>
          <HowSold task={task} currency={currency} onSell={onSell} />
          <TakeOff title={task.title} onPress={() => onRemove(task.id)} />
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
      {charges.map(({ id, title, ...charge }) => (
        <li key={id}>
          <span>{title === '' ? chargeWords[charge.kind] : title}</span>
          <span className={styles.number}>{pricedWords(charge, currency)}</span>
          <TakeOff
            title={title === '' ? chargeWords[charge.kind] : title}
            onPress={() => onRemove(id)}
          />
        </li>
      ))}
    </ul>
  );
}

const ways = [
  { value: '', words: 'by time and materials' },
  { value: 'fixed', words: 'at a fixed price' },
  { value: 'not_to_exceed', words: 'by time, not to exceed' },
] as const;

function HowSold({
  task: { id: taskId, title, sold },
  currency,
  onSell,
}: {
  task: WantedTask;
  currency: string;
  onSell: (taskId: string, sold: SoldTyped | undefined) => void;
}) {
  const id = useId();
  const usable = sold === undefined || priceOf(sold, currency) !== null;
  return (
    <span className={styles.sold}>
      <label className="spoken" htmlFor={`${id}-how`}>
        How {title} is sold
      </label>
      <select
        id={`${id}-how`}
        value={sold?.pricing ?? ''}
        onChange={({ currentTarget: { value } }) =>
          onSell(
            taskId,
            value === ''
              ? undefined
              : { pricing: value as SoldTyped['pricing'], price: sold?.price ?? '' },
          )
        }
      >
        {ways.map(({ value, words }) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
      {sold === undefined ? null : (
        <>
          <label className="spoken" htmlFor={id}>
            {sold.pricing === 'fixed' ? 'Price' : 'Limit'} of {title}, {currency}, net
          </label>
          <input
            id={id}
            className={styles.price}
            inputMode="decimal"
            placeholder="0.00"
            value={sold.price}
            aria-invalid={!usable}
            aria-describedby={usable ? undefined : `${id}-wrong`}
            onChange={(event) => onSell(taskId, { ...sold, price: event.currentTarget.value })}
          />
          <span>{currency}</span>
        </>
      )}
      {usable ? null : (
        <span className={styles.wrong} id={`${id}-wrong`}>
          needed: an amount above 0
        </span>
      )}
    </span>
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

/** Takes its line off, and hands the focus on: to the next line, else to the one before, else to the first field. */
function TakeOff({ title, onPress }: { title: string; onPress: () => void }) {
  return (
    <Button
      kind="plain"
      onClick={({ currentTarget }) => {
        const line = currentTarget.closest('li');
        const near = line?.nextElementSibling ?? line?.previousElementSibling;
        const next =
          near?.querySelector('button') ?? currentTarget.closest('section')?.querySelector('input');
        next?.focus();
        onPress();
      }}
    >
      take off<span className="spoken"> {title}</span>
    </Button>
  );
}
