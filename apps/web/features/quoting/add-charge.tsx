'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { ChargeKind } from '../../graphql/generated/graphql.ts';
import { clientId } from '../../lib/client-id.ts';
import { minorFrom } from './amount-field.ts';
import { chargeWords, needsTitle } from './charge-words.ts';
import styles from './quote-form.module.css';
import type { WantedCharge } from './use-wanted.ts';

// A core follows its part: nobody adds it.
const kinds = Object.entries(chargeWords)
  .filter(([kind]) => kind !== 'core')
  .map(([value, words]) => ({ value, words }));
/** At a price; from a cost or the labour; for supplies, by the shop's own rule. */
type How = 'price' | 'derived' | 'rule';
const blank = { title: '', price: '', cost: '', percent: '', atMost: '' };

/** Adds what is charged besides work and parts: by its price, its cost and a mark-up, or as a share of the labour. */
export function AddCharge({
  currency,
  supplied,
  onAdd,
}: {
  currency: string;
  /** Whether shop supplies are in the quote already. */
  supplied: boolean;
  onAdd: (charge: WantedCharge) => void;
}) {
  const [kind, setKind] = useState<ChargeKind>('outside_work');
  const [typed, setTyped] = useState(blank);
  const [how, setHow] = useState<How>('price');
  const [wrong, setWrong] = useState<string>();
  const supplies = kind === 'supplies';
  const set = (key: keyof typeof blank) => (event: { currentTarget: { value: string } }) =>
    setTyped({ ...typed, [key]: event.currentTarget.value });

  function add(event: FormEvent) {
    event.preventDefault();
    const given: typeof blank = {
      ...blank,
      title: typed.title.trim(),
      ...(how === 'rule'
        ? {}
        : how === 'price'
          ? { price: typed.price }
          : supplies
            ? { percent: typed.percent, atMost: typed.atMost }
            : { cost: typed.cost, percent: typed.percent }),
    };
    const problem = wrongIn(kind, given, how, currency);
    setWrong(problem);
    if (problem !== undefined) return;
    onAdd({ ...given, id: clientId(), kind });
    setTyped(blank);
    // Supplies are named once, so they are not offered again.
    if (supplies) {
      setKind('outside_work');
      setHow('price');
    }
  }

  return (
    <More words="Add a charge: outside work, freight, supplies">
      <form className={styles.charge} onSubmit={add} noValidate aria-label="Add a charge">
        <Select
          label="What is charged"
          options={kinds.filter(({ value }) => value !== 'supplies' || !supplied)}
          value={kind}
          onChange={(event) => {
            const next = event.currentTarget.value as ChargeKind;
            setKind(next);
            if (next === 'supplies' ? how === 'price' : how === 'rule')
              setHow(next === 'supplies' ? 'rule' : 'price');
          }}
        />
        <Field
          label="In words"
          hint={needsTitle(kind) ? undefined : `Empty: “${chargeWords[kind]}”.`}
          maxLength={200}
          value={typed.title}
          onChange={set('title')}
        />
        <Select
          label="How it is priced"
          options={[
            ...(supplies ? [{ value: 'rule', words: 'by the shop’s rule' }] : []),
            { value: 'price', words: 'at a price' },
            {
              value: 'derived',
              words: supplies ? 'as a share of the labour' : 'by its cost and a mark-up',
            },
          ]}
          value={how}
          onChange={(event) => setHow(event.currentTarget.value as typeof how)}
        />
        {how === 'rule' ? null : how === 'price' ? (
          <Amount label="Price" unit={currency} value={typed.price} onChange={set('price')} />
        ) : (
          <>
            {supplies ? null : (
              <Amount label="Its cost" unit={currency} value={typed.cost} onChange={set('cost')} />
            )}
            <Amount
              label={supplies ? 'Of the likely labour' : 'Mark-up'}
              unit="%"
              value={typed.percent}
              onChange={set('percent')}
            />
            {supplies ? (
              <Amount
                label="At most"
                unit={currency}
                value={typed.atMost}
                onChange={set('atMost')}
              />
            ) : null}
          </>
        )}
        {wrong === undefined ? null : <ErrorNote head="Not added">{wrong}</ErrorNote>}
        <Button type="submit">Add it</Button>
      </form>
    </More>
  );
}

function Amount(props: {
  label: string;
  unit: string;
  value: string;
  onChange: (event: { currentTarget: { value: string } }) => void;
}) {
  return <Field figures inputMode="decimal" maxLength={16} {...props} />;
}

/** What is missing, before the shop is asked. */
function wrongIn(
  kind: ChargeKind,
  { title, price, cost, percent, atMost }: typeof blank,
  how: How,
  currency: string,
): string | undefined {
  if (needsTitle(kind) && title.length < 3) return 'Say in words what it is.';
  if (how === 'rule') return undefined;
  const unread = (typed: string) => minorFrom(typed, currency) === null;
  const share = /^\d{1,4}(\.\d{1,4})?$/;
  if (how === 'price')
    return unread(price) || minorFrom(price, currency) === 0n
      ? `Needed is a price above 0, such as 60.00 ${currency}.`
      : undefined;
  if (kind === 'supplies')
    return !share.test(percent) || (atMost !== '' && unread(atMost))
      ? 'Needed is a share of the labour such as 3 %, and an amount or nothing as its cap.'
      : undefined;
  return unread(cost) || (percent !== '' && !share.test(percent))
    ? 'Needed is what it costs, and a mark-up such as 15 %, or none.'
    : undefined;
}
