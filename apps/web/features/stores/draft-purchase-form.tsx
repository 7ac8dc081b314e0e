'use client';

import { useQuery } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { DraftPurchaseInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import own from './draft-purchase-form.module.css';
import { MoveFrame } from './move-frame.tsx';
import { PartPicker } from './part-picker.tsx';
import { DraftPurchaseDocument, WorkToBuyForDocument } from './purchase-documents.ts';
import { purchaseHref } from './purchase-words.ts';
import { typedQuantity } from './shelves.ts';
import styles from './stores.module.css';
import type { StoresPart } from './stores-documents.ts';

/** A line on its way to an order. */
export interface WantedLine {
  part: StoresPart;
  quantity: string;
  unitCost: string;
  /** The work that it is bought for; empty: for the shop's stock. */
  itemId?: string;
}

const typedCost = (typed: string) =>
  /^\d{1,7}(\.\d{1,4})?$/.test(typed.trim()) ? typed.trim() : null;

/** What is to be ordered of one supplier. It has its number once it is kept, and goes nowhere before it is sent. */
export function DraftPurchaseForm({
  start,
  currency,
  today,
  onLeave,
}: {
  /** What it begins with. */
  start: { supplier: string; lines: readonly WantedLine[] };
  currency: string;
  today: string;
  onLeave: () => void;
}) {
  const router = useRouter();
  const [key] = useState(clientId);
  const [supplier, setSupplier] = useState(start.supplier);
  const [supplierEmail, setEmail] = useState('');
  const [expectedOn, setExpectedOn] = useState('');
  const [note, setNote] = useState('');
  const [lines, setLines] = useState(start.lines);
  const work = useQuery({
    queryKey: ['workToBuyFor'],
    queryFn: async () => (await request(WorkToBuyForDocument)).orders.edges,
  });
  const options = (work.data ?? []).flatMap(({ node: { number, aircraft, items } }) =>
    items
      .filter(({ state }) => state !== 'put_off')
      .map(({ id, position, title }) => ({
        value: id,
        words: `${aircraft.registration}, order ${number}: ${position} ${title}`,
      })),
  );
  const change = (id: string, over: Partial<WantedLine>) =>
    setLines((before) => before.map((line) => (line.part.id === id ? { ...line, ...over } : line)));
  const draft = useDoing(async (input: DraftPurchaseInput) => {
    const { draftPurchase } = await request(DraftPurchaseDocument, { input });
    if (draftPurchase.__typename === 'PurchaseOrder') router.push(purchaseHref(draftPurchase.id));
    return draftPurchase;
  });
  const ready =
    supplier.trim() !== '' &&
    lines.length > 0 &&
    lines.every(
      ({ quantity, unitCost }) => typedQuantity(quantity) !== null && typedCost(unitCost) !== null,
    );
  return (
    <MoveFrame
      name="Draft a purchase order"
      says="It has its number from now on, and is never changed: a mistake is cancelled and drafted anew."
      yes="Keep the draft"
      ready={ready}
      busy={draft.isPending ? 'Keeping' : undefined}
      problem={draft.error}
      onNo={onLeave}
      onYes={() =>
        draft.mutate({
          supplier,
          supplierEmail,
          note,
          ...(expectedOn !== '' && { expectedOn }),
          lines: lines.map(({ part, quantity, unitCost, itemId = '' }) => ({
            partId: part.id,
            quantity: typedQuantity(quantity) ?? '0',
            unitCost: typedCost(unitCost) ?? '0',
            ...(itemId !== '' && { itemId }),
          })),
          clientEventId: key,
        })
      }
    >
      <div className={styles.fields}>
        <Field
          label="Supplier"
          maxLength={120}
          value={supplier}
          onChange={(event) => setSupplier(event.currentTarget.value)}
        />
        <Field
          label="Their e-mail"
          hint="Empty: it goes some other way"
          type="email"
          maxLength={200}
          value={supplierEmail}
          onChange={(event) => setEmail(event.currentTarget.value)}
        />
        <Field
          label="Expected on"
          hint="Empty: nobody said"
          type="date"
          min={today}
          value={expectedOn}
          onChange={(event) => setExpectedOn(event.currentTarget.value)}
        />
        <Field
          label="To be told besides"
          maxLength={500}
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
      </div>
      <ul className={own.wanted} aria-label="Lines of the order">
        {lines.map(({ part, quantity, unitCost, itemId = '' }) => (
          <li key={part.id}>
            <span>
              {part.title} <span className={styles.figures}>{part.number}</span>
            </span>
            <Field
              label={`How many of ${part.number}`}
              figures
              inputMode="decimal"
              autoComplete="off"
              unit={part.unit}
              wrong={
                typedQuantity(quantity) === null
                  ? `“${quantity}” is no quantity: needed is more than 0.`
                  : undefined
              }
              value={quantity}
              onChange={(event) => change(part.id, { quantity: event.currentTarget.value })}
            />
            <Field
              label={`What one ${part.number} is to cost`}
              figures
              inputMode="decimal"
              autoComplete="off"
              unit={currency}
              wrong={
                unitCost !== '' && typedCost(unitCost) === null
                  ? `“${unitCost}” is no price: needed are figures such as 12.40.`
                  : undefined
              }
              value={unitCost}
              onChange={(event) => change(part.id, { unitCost: event.currentTarget.value })}
            />
            <Select
              label={`For which work ${part.number} is`}
              value={itemId}
              onChange={(event) => change(part.id, { itemId: event.currentTarget.value })}
              options={[{ value: '', words: 'the shop’s stock' }, ...options]}
            />
            <Button
              kind="plain"
              onClick={() =>
                setLines((before) => before.filter((line) => line.part.id !== part.id))
              }
            >
              Take it off<span className="spoken">: {part.title}</span>
            </Button>
          </li>
        ))}
      </ul>
      <PartPicker
        label="Add a part to the order"
        part={undefined}
        onPick={(part) => {
          if (part !== undefined && !lines.some((line) => line.part.id === part.id))
            setLines((before) => [...before, { part, quantity: '1', unitCost: '' }]);
        }}
      />
    </MoveFrame>
  );
}
