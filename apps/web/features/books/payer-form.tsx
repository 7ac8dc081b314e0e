'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './books.module.css';
import { ContactChoice, isChosen } from './contact-choice.tsx';
import { typedAmount } from './invoice-figures.ts';
import { AddPayerShareDocument, type OrderWithPayers } from './payer-documents.ts';

type Take = 'whole' | 'percent' | 'sum';
type Kind = 'warranty' | 'insurer' | 'other';

/** Who takes over how much of what, and what of that stays with the customer. */
export function PayerForm({
  order,
  currency,
  onBack,
}: {
  order: OrderWithPayers;
  currency: string;
  onBack: () => void;
}) {
  const [typed, setTyped] = useState({
    ...{ contact: '', kind: 'insurer' as Kind, take: 'whole' as Take },
    ...{ percent: '', amount: '', deductible: '', reference: '' },
  });
  const [items, setItems] = useState<readonly string[]>([]);
  const type = (change: Partial<typeof typed>) => setTyped({ ...typed, ...change });
  const amount = typedAmount(typed.amount, currency);
  const deductible = typed.deductible === '' ? '0' : typedAmount(typed.deductible, currency);
  const percent = /^\d{1,3}([.,]\d{1,4})?$/.test(typed.percent.trim())
    ? typed.percent.trim().replace(',', '.')
    : null;
  const adding = useDoing(
    async () =>
      (
        await request(AddPayerShareDocument, {
          input: {
            ...{ orderId: order.id, contactId: typed.contact, kind: typed.kind, take: typed.take },
            percent: typed.take === 'percent' ? percent : null,
            amount: typed.take === 'sum' ? amount : null,
            ...{ deductible, itemIds: [...items], reference: typed.reference },
          },
        })
      ).result,
    onBack,
  );
  const ready =
    isChosen(typed.contact) &&
    deductible !== null &&
    (typed.take !== 'percent' || percent !== null) &&
    (typed.take !== 'sum' || amount !== null);
  function submit(event: FormEvent) {
    event.preventDefault();
    if (ready) adding.mutate(undefined);
  }
  const wrongAmount = (text: string, read: string | null) =>
    text !== '' && read === null
      ? `"${text}" is no amount of ${currency}: needed are figures such as 1,240.00.`
      : undefined;
  return (
    <form className={styles.ask} aria-label="Somebody else pays a part" onSubmit={submit}>
      <div className={styles.fields}>
        <ContactChoice
          label="Who pays"
          value={typed.contact}
          onChoose={(contact) => type({ contact })}
        />
        <Select
          label="As what"
          value={typed.kind}
          onChange={(event) => type({ kind: event.currentTarget.value as Kind })}
          options={[
            { value: 'insurer', words: 'insurer' },
            { value: 'warranty', words: 'who gave a warranty' },
            { value: 'other', words: 'somebody else' },
          ]}
        />
        <Field
          label="Claim or warranty number"
          maxLength={120}
          value={typed.reference}
          onChange={(event) => type({ reference: event.currentTarget.value })}
        />
        <Select
          label="Takes over"
          value={typed.take}
          onChange={(event) => type({ take: event.currentTarget.value as Take })}
          options={[
            { value: 'whole', words: 'all of it' },
            { value: 'percent', words: 'a per cent of it' },
            { value: 'sum', words: 'a sum' },
          ]}
        />
        {typed.take === 'percent' ? (
          <Field
            label="Per cent, before tax"
            figures
            inputMode="decimal"
            unit="%"
            value={typed.percent}
            wrong={
              typed.percent !== '' && percent === null
                ? `"${typed.percent}" is no per cent: needed are figures such as 80 or 33.5.`
                : undefined
            }
            onChange={(event) => type({ percent: event.currentTarget.value })}
          />
        ) : null}
        {typed.take === 'sum' ? (
          <Field
            label="Sum, before tax"
            figures
            inputMode="decimal"
            unit={currency}
            value={typed.amount}
            wrong={wrongAmount(typed.amount, amount)}
            onChange={(event) => type({ amount: event.currentTarget.value })}
          />
        ) : null}
        <Field
          label="Deductible, before tax"
          hint="It stays with the customer."
          figures
          inputMode="decimal"
          unit={currency}
          value={typed.deductible}
          wrong={wrongAmount(typed.deductible, deductible)}
          onChange={(event) => type({ deductible: event.currentTarget.value })}
        />
      </div>
      {order.items.length === 0 ? null : (
        <More
          words={
            items.length === 0
              ? 'Of the whole order; only some items'
              : `Of ${items.length} item${items.length === 1 ? '' : 's'}`
          }
        >
          <fieldset>
            <legend className={styles.second}>
              Of these items; none ticked: of the whole order. An item under a flat price has none
              of its own: take a per cent or a sum of the order.
            </legend>
            {order.items.map(({ id, position, title }) => (
              <Tick
                key={id}
                name={`paid-${id}`}
                words={`${position} · ${title}`}
                ticked={items.includes(id)}
                onTick={(ticked) =>
                  setItems(ticked ? [...items, id] : items.filter((each) => each !== id))
                }
              />
            ))}
          </fieldset>
        </More>
      )}
      {adding.error === null ? null : (
        <ErrorNote head="Not recorded">{adding.error.message}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button
          kind="primary"
          type="submit"
          disabled={!ready}
          busy={adding.isPending ? 'Recording' : undefined}
        >
          They pay it
        </Button>
        <Button disabled={adding.isPending} onClick={onBack}>
          Not now
        </Button>
      </div>
    </form>
  );
}
