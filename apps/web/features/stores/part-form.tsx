'use client';

import { formatAmount, currency as knownCurrency, minor } from '@fairlead/money';
import { useState } from 'react';
import { Field, Select } from '../../components/Field.tsx';
import type { TaxCategory } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { typedAmount } from '../books/invoice-figures.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { MoveFrame } from './move-frame.tsx';
import { AddPartDocument, ChangePartDocument, type PartOnSheet } from './part-documents.ts';
import { typedCount } from './shelves.ts';
import styles from './stores.module.css';

const categories = [
  { value: 'parts', words: 'parts' },
  { value: 'supplies', words: 'shop supplies' },
  { value: 'labour', words: 'labour' },
];

/** A part that the shop does not know yet, or what one that it knows is sold and ordered by. */
export function PartForm({
  part,
  currency,
  onDone,
  onLeave,
}: {
  /** Left out: a new one. */
  part?: PartOnSheet;
  currency: string;
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [given, setGiven] = useState({
    number: part?.number ?? '',
    title: part?.title ?? '',
    unit: part?.unit ?? 'each',
    unitPrice: part?.ownPrice ?? '',
    priceFrom: '',
    category: part?.category ?? 'parts',
    coreCharge:
      part?.coreCharge == null
        ? ''
        : formatAmount(minor(BigInt(part.coreCharge)), knownCurrency(currency)),
    reorderPoint: part?.reorderPoint ?? '',
  });
  const field = (name: keyof typeof given) => ({
    value: given[name],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setGiven((before) => ({ ...before, [name]: value }));
    },
  });
  // Empty: none of its own, so that its cost is marked up by the bands.
  const typed = given.unitPrice.trim();
  const price = /^(\d{1,7}(\.\d{1,4})?)?$/.test(typed) ? typed : null;
  const charge = given.coreCharge.trim() === '' ? '' : typedAmount(given.coreCharge, currency);
  const point = given.reorderPoint.trim() === '' ? '' : typedCount(given.reorderPoint);
  const keep = useDoing(
    async () => {
      const terms = {
        title: given.title,
        ...(price !== '' && { unitPrice: price }),
        category: given.category as TaxCategory,
        ...(charge !== '' && { coreCharge: charge }),
        ...(point !== '' && { reorderPoint: point }),
      };
      return part === undefined
        ? (
            await request(AddPartDocument, {
              input: { ...terms, number: given.number, unit: given.unit },
            })
          ).addPart
        : (
            await request(ChangePartDocument, {
              input: {
                ...{ ...terms, partId: part.id },
                ...(given.priceFrom !== '' && { priceFrom: given.priceFrom }),
              },
            })
          ).changePart;
    },
    () => onDone(`Part ${given.number.trim()} ${part === undefined ? 'added' : 'changed'}.`),
  );
  return (
    <MoveFrame
      name={part === undefined ? 'Add a part' : `Change ${part.number}`}
      says={
        part === undefined
          ? 'Its number and its unit stay: a new number is another part, which supersedes this one.'
          : 'A new price counts from its day on: what was quoted keeps its own. Lots that are here keep the core charge that they came with.'
      }
      yes={part === undefined ? 'Add it' : 'Change it'}
      ready={
        given.number.trim() !== '' &&
        given.title.trim() !== '' &&
        given.unit.trim() !== '' &&
        price !== null &&
        charge !== null &&
        point !== null
      }
      busy={keep.isPending ? 'Keeping' : undefined}
      problem={keep.error}
      onNo={onLeave}
      onYes={() => keep.mutate(undefined)}
    >
      <div className={styles.fields}>
        {part === undefined ? (
          <Field label="Part number" figures maxLength={60} {...field('number')} />
        ) : null}
        <Field label="What it is" maxLength={120} {...field('title')} />
        {part === undefined ? (
          <Field
            label="Sold by"
            hint="Such as each, set, quart"
            maxLength={20}
            {...field('unit')}
          />
        ) : null}
        <Field
          label="Selling price of one"
          hint="Empty: what it cost is marked up by the shop’s bands"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={currency}
          wrong={
            given.unitPrice !== '' && price === null
              ? `“${given.unitPrice}” is no price: needed are figures such as 12.40.`
              : undefined
          }
          {...field('unitPrice')}
        />
        {part === undefined ? null : (
          <Field
            label="That price counts from"
            hint="Today or later; empty: today"
            type="date"
            {...field('priceFrom')}
          />
        )}
        <Select label="Taxed as" options={categories} {...field('category')} />
        <Field
          label="Core charge of one"
          hint="Until the old one comes back; empty: none is asked for"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={currency}
          wrong={
            charge === null
              ? `“${given.coreCharge}” is no amount of ${currency}: needed are figures such as 250.00.`
              : undefined
          }
          {...field('coreCharge')}
        />
        <Field
          label="Order again below"
          hint="Free and on order together; empty: nobody watches it"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={given.unit}
          wrong={
            point === null
              ? `“${given.reorderPoint}” is no quantity: needed is 0 or more, with at most 3 decimals.`
              : undefined
          }
          {...field('reorderPoint')}
        />
      </div>
    </MoveFrame>
  );
}
