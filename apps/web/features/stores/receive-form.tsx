'use client';

import { useState } from 'react';
import { Field } from '../../components/Field.tsx';
import type { ReceiveLotInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { MoveFrame } from './move-frame.tsx';
import { PartPicker } from './part-picker.tsx';
import { typedQuantity } from './shelves.ts';
import styles from './stores.module.css';
import { ReceiveLotDocument, type StoresPart } from './stores-documents.ts';

const empty = {
  supplier: '',
  batch: '',
  tag: '',
  quantity: '',
  unitCost: '',
  receivedOn: '',
  shelfLifeUntil: '',
  bin: '',
};

/** The line of a purchase order that a delivery is of. */
export interface OrderedLine {
  lineId: string;
  number: number;
  part: StoresPart;
  supplier: string;
  /** Still to come. */
  quantity: string;
  unitCost: string;
}

/** A delivery: one part, one batch, with the certificate that came with it. */
export function ReceiveForm({
  ordered,
  today,
  currency,
  onDone,
  onLeave,
}: {
  /** Left out: nobody ordered it here. */
  ordered?: OrderedLine;
  today: string;
  currency: string;
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [key] = useState(clientId);
  const [part, setPart] = useState<StoresPart | undefined>(ordered?.part);
  const [given, setGiven] = useState({
    ...empty,
    receivedOn: today,
    ...(ordered !== undefined && {
      supplier: ordered.supplier,
      quantity: ordered.quantity,
      unitCost: ordered.unitCost,
    }),
  });
  const quantity = typedQuantity(given.quantity);
  const cost = /^\d{1,7}(\.\d{1,4})?$/.test(given.unitCost.trim()) ? given.unitCost.trim() : null;
  const receive = useDoing(
    async (input: ReceiveLotInput) => (await request(ReceiveLotDocument, { input })).receiveLot,
    () =>
      onDone(
        `${quantity} ${part?.unit ?? ''} of ${part?.title ?? 'the part'} taken in${given.bin.trim() === '' ? '' : `, put to ${given.bin.trim()}`}.`,
      ),
  );
  const field = (name: keyof typeof empty) => ({
    value: given[name],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setGiven((before) => ({ ...before, [name]: value }));
    },
  });
  return (
    <MoveFrame
      name={
        ordered === undefined
          ? 'Receive a delivery'
          : `Receive ${ordered.part.title} of order ${ordered.number}`
      }
      says="A lot is one batch of one part. It is never changed afterwards; what it holds follows from what is issued and what comes back."
      yes="Take it in"
      ready={
        part !== undefined &&
        quantity !== null &&
        cost !== null &&
        given.supplier.trim() !== '' &&
        given.batch.trim() !== ''
      }
      busy={receive.isPending ? 'Recording' : undefined}
      problem={receive.error}
      onNo={onLeave}
      onYes={() => {
        if (part === undefined || quantity === null || cost === null) return;
        receive.mutate({
          partId: part.id,
          ...(ordered !== undefined && { purchaseLineId: ordered.lineId }),
          supplier: given.supplier,
          batch: given.batch,
          tag: given.tag,
          bin: given.bin,
          quantity,
          unitCost: cost,
          ...(given.receivedOn !== '' && { receivedOn: given.receivedOn }),
          ...(given.shelfLifeUntil !== '' && { shelfLifeUntil: given.shelfLifeUntil }),
          clientEventId: key,
        });
      }}
    >
      <div className={styles.fields}>
        {ordered === undefined ? <PartPicker label="Part" part={part} onPick={setPart} /> : null}
        <Field label="Supplier" maxLength={120} {...field('supplier')} />
        <Field label="Batch or serial" figures maxLength={80} {...field('batch')} />
        <Field
          label="Release certificate"
          hint="Its number; empty where none came with it"
          figures
          maxLength={80}
          {...field('tag')}
        />
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          {...(part === undefined ? {} : { unit: part.unit })}
          wrong={
            given.quantity !== '' && quantity === null
              ? `“${given.quantity}” is no quantity: needed is more than 0, with at most 3 decimals.`
              : undefined
          }
          {...field('quantity')}
        />
        <Field
          label="What one cost the shop"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={currency}
          wrong={
            given.unitCost !== '' && cost === null
              ? `“${given.unitCost}” is no price: needed are figures such as 12.40.`
              : undefined
          }
          {...field('unitCost')}
        />
        <Field label="Came on" type="date" max={today} {...field('receivedOn')} />
        <Field
          label="Good until"
          hint="Empty: it does not age"
          type="date"
          {...field('shelfLifeUntil')}
        />
        <Field label="Put to" hint="Shelf and place, such as A1" maxLength={40} {...field('bin')} />
      </div>
    </MoveFrame>
  );
}
