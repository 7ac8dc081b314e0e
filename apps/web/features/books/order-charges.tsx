'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { AskOnce } from './ask-once.tsx';
import styles from './books.module.css';
import {
  ChargesOfOrderDocument,
  EndOrderChargeDocument,
  type OrderWithCharges,
} from './charge-documents.ts';
import { ChargeForm } from './charge-form.tsx';
import { Collection } from './collection.tsx';

type Charge = OrderWithCharges['charges'][number];

/** What is charged besides the quote, and, once the aircraft is ready, who was told and what storage it has come to. */
export function OrderCharges({ orderId, shop }: { orderId: string; shop: Viewer['shop'] }) {
  const [open, setOpen] = useState<string | null>(null);
  const asked = useQuery({
    queryKey: ['charges', orderId],
    queryFn: async () => (await request(ChargesOfOrderDocument, { id: orderId })).node,
  });
  if (asked.error !== null)
    return <ErrorNote head="No charges to show">{asked.error.message}</ErrorNote>;
  const order = asked.data?.__typename === 'WorkOrder' ? asked.data : null;
  if (order === null || order.state === 'cancelled') return null;
  const billed = order.invoices.some(
    ({ state, credits, sale }) => state === 'issued' && credits === null && sale === null,
  );
  const { charges } = order;
  const ending = charges.find(({ id }) => id === open);
  const close = () => setOpen(null);
  return (
    <section className={styles.list} aria-label="Charged besides the quote">
      {charges.length === 0 ? null : (
        <PartsList
          caption={`Charged besides the quote, ${shop.currency} net`}
          columns={[
            { key: 'what', head: 'What' },
            { key: 'amount', head: 'Amount', kind: 'figure' },
          ]}
          rows={charges.map((charge) => ({
            key: charge.id,
            note:
              charge.ended === null
                ? `said by ${charge.by.name}`
                : `not charged after all: ${charge.ended}`,
            cells: {
              what: (
                <>
                  {charge.title}{' '}
                  {billed || charge.ended !== null ? null : (
                    <span data-screen-only="">
                      <Button
                        kind="plain"
                        aria-label={`Take back: ${charge.title}`}
                        aria-expanded={open === charge.id}
                        onClick={() => setOpen(open === charge.id ? null : charge.id)}
                      >
                        Take back
                      </Button>
                    </span>
                  )}
                </>
              ),
              amount:
                charge.ended === null ? (
                  <Money minor={BigInt(charge.amount)} currency={shop.currency} />
                ) : (
                  'none'
                ),
            },
          }))}
        />
      )}
      {ending ? <EndForm key={ending.id} charge={ending} onBack={close} /> : null}
      {billed ? null : open === 'add' ? (
        <ChargeForm orderId={orderId} currency={shop.currency} onBack={close} />
      ) : (
        <div data-screen-only="">
          <Button onClick={() => setOpen('add')}>Charge something besides</Button>
        </div>
      )}
      <Collection order={order} shop={shop} billed={billed} />
    </section>
  );
}

function EndForm({ charge, onBack }: { charge: Charge; onBack: () => void }) {
  const [reason, setReason] = useState('');
  const ending = useDoing(
    async () =>
      (await request(EndOrderChargeDocument, { input: { chargeId: charge.id, reason } })).result,
    onBack,
  );
  return (
    <AskOnce
      question={`“${charge.title}” is not charged after all.`}
      yes="Take it back"
      busy={ending.isPending ? 'Recording' : undefined}
      onYes={() => ending.mutate(undefined)}
      onNo={onBack}
    >
      <Field
        label="Why"
        required
        minLength={3}
        maxLength={500}
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      {ending.error === null ? null : (
        <ErrorNote head="Not taken back">{ending.error.message}</ErrorNote>
      )}
    </AskOnce>
  );
}
