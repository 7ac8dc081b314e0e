'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { amountText, minorFrom } from './amount-field.ts';
import { AskForMore } from './ask-for-more.tsx';
import { WriteOffDocument } from './beyond-documents.ts';
import type { OrderData } from './order-documents.ts';
import styles from './order-sheet.module.css';
import { useDoing } from './use-answer.ts';

/** What was worked past the owner's yes: asking for more is one touch away, and what the shop carries is said by name. */
export function BeyondPart({
  order,
  currency,
  timeZone,
  manages,
}: {
  order: OrderData;
  currency: string;
  timeZone: string;
  manages: boolean;
}) {
  const beyond = BigInt(order.beyondAuthority ?? '0');
  const coming = BigInt(order.beyondOnOrder ?? '0');
  const past = beyond + coming;
  if (past === 0n && order.writeOffs.length === 0) return null;
  return (
    <section className={styles.beyond} aria-label="Beyond authority">
      {beyond === 0n ? null : (
        <>
          <p className={styles.over}>
            {moneyText(beyond, currency)} {currency} were worked past what the owner agreed to. They
            are billed once the owner agrees, or written off by name.
          </p>
        </>
      )}
      {coming === 0n ? null : (
        <p className={styles.over}>
          With the parts that are on order for it, it goes {moneyText(coming, currency)} {currency}{' '}
          {beyond === 0n ? 'past what the owner agreed to' : 'further'}.
        </p>
      )}
      {past === 0n ? null : (
        <AskForMore orderId={order.id} amount={`${past}`} currency={currency} />
      )}
      {order.writeOffs.map(({ id, amount, reason, at, by }) => (
        <p key={id}>
          Written off: {moneyText(BigInt(amount), currency)} {currency}, {by.name},{' '}
          {dayAndTimeText(at, timeZone)}. {reason}
        </p>
      ))}
      {manages && beyond > 0n ? (
        <More words="Write it off, or part of it">
          <WriteOffForm orderId={order.id} beyond={beyond} currency={currency} />
        </More>
      ) : null}
    </section>
  );
}

function WriteOffForm({
  orderId,
  beyond,
  currency,
}: {
  orderId: string;
  beyond: bigint;
  currency: string;
}) {
  const [typed, setTyped] = useState(amountText(beyond, currency));
  const [reason, setReason] = useState('');
  const amount = minorFrom(typed, currency);
  const writing = useDoing(
    async () =>
      (
        await request(WriteOffDocument, {
          input: { orderId, amount: `${amount ?? 0n}`, reason },
        })
      ).answer,
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    writing.mutate(undefined);
  };
  return (
    <form className={styles.beyond} onSubmit={submit} noValidate aria-label="Write off">
      <Field
        label="How much"
        unit={currency}
        inputMode="decimal"
        figures
        value={typed}
        onChange={(event) => setTyped(event.currentTarget.value)}
      />
      <Field
        label="Why"
        hint="Kept under your name."
        maxLength={500}
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      {writing.error ? <ErrorNote head="Not written off">{writing.error.message}</ErrorNote> : null}
      <p>
        <Button type="submit" busy={writing.isPending ? 'Recording' : undefined}>
          Write it off
        </Button>
      </p>
    </form>
  );
}
