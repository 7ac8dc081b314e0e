'use client';

import { type FormEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './books.module.css';
import { typedAmount } from './invoice-figures.ts';
import { paymentKey } from './payment-key.ts';

export interface MoneyTyped {
  amount: string;
  method: string;
  clientEventId: string;
}

/** An amount of a deposit that comes or goes today. One opening of this form is one of them, however often it is sent. */
export function MoneyForm({
  name,
  words,
  yes,
  currency,
  amount: first,
  act,
  onBack,
  children,
}: {
  name: string;
  words: ReactNode;
  yes: string;
  currency: string;
  /** What stands in the field at first. */
  amount: string;
  act: (typed: MoneyTyped) => Promise<{ __typename: string; message?: string }>;
  onBack: () => void;
  /** Fields of its own before the amount. */
  children?: ReactNode;
}) {
  const form = useRef<HTMLFormElement>(null);
  const [clientEventId] = useState(paymentKey);
  const [typed, setTyped] = useState(first);
  const [method, setMethod] = useState('bank transfer');
  useEffect(() => form.current?.querySelector<HTMLElement>('select, input')?.focus(), []);
  const amount = typedAmount(typed, currency);
  const doing = useDoing(act, onBack);
  function submit(event: FormEvent) {
    event.preventDefault();
    if (amount !== null) doing.mutate({ amount, method, clientEventId });
  }
  return (
    <form
      ref={form}
      className={styles.ask}
      aria-label={name}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !doing.isPending) onBack();
      }}
    >
      <p>{words}</p>
      <div className={styles.fields}>
        {children}
        <Field
          label="Amount"
          figures
          inputMode="decimal"
          autoComplete="off"
          required
          unit={currency}
          value={typed}
          wrong={
            amount === null && typed !== ''
              ? `"${typed}" is no amount of ${currency}: needed are figures such as 1,240.00.`
              : undefined
          }
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <Field
          label="By which way"
          required
          maxLength={60}
          value={method}
          onChange={(event) => setMethod(event.currentTarget.value)}
        />
      </div>
      {doing.error === null ? null : (
        <ErrorNote head="Not recorded">{doing.error.message}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button
          kind="primary"
          type="submit"
          disabled={amount === null}
          busy={doing.isPending ? 'Recording' : undefined}
        >
          {yes}
        </Button>
        <Button disabled={doing.isPending} onClick={onBack}>
          Not now
        </Button>
      </div>
    </form>
  );
}
