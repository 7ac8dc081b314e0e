'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { AskOnce } from './ask-once.tsx';
import styles from './books.module.css';
import { decimalText } from './invoice-figures.ts';
import {
  EndPayerShareDocument,
  type OrderWithPayers,
  PayersOfOrderDocument,
} from './payer-documents.ts';
import { PayerForm } from './payer-form.tsx';

type Payer = OrderWithPayers['payers'][number];

const kinds = { warranty: 'warranty', insurer: 'insurer', other: 'other payer' } as const;

/** Who pays a part of an order besides the customer. Its invoices are made one for each. */
export function Payers({
  orderId,
  over,
  currency,
}: {
  orderId: string;
  over: boolean;
  currency: string;
}) {
  const [open, setOpen] = useState<string | null>(null);
  const asked = useQuery({
    queryKey: ['payers', orderId],
    queryFn: async () => (await request(PayersOfOrderDocument, { id: orderId })).node,
  });
  if (asked.error !== null)
    return <ErrorNote head="No payers to show">{asked.error.message}</ErrorNote>;
  const order = asked.data?.__typename === 'WorkOrder' ? asked.data : null;
  if (order === null) return null;
  const billed = order.invoices.some(
    ({ state, credits }) => state === 'issued' && credits === null,
  );
  const payers = order.payers.filter(({ ended }) => ended === null);
  if (payers.length === 0 && (billed || over)) return null;
  const ending = payers.find(({ id }) => id === open);
  return (
    <section className={styles.list} aria-label="Who else pays">
      {payers.length === 0 ? (
        <h2 className={styles.head}>Who else pays</h2>
      ) : (
        <PartsList
          caption="Who else pays"
          columns={[
            { key: 'who', head: 'Who' },
            { key: 'takes', head: 'Takes over' },
          ]}
          rows={payers.map((payer) => ({
            key: payer.id,
            note: [kinds[payer.kind], payer.reference].filter(Boolean).join(', '),
            cells: {
              who: (
                <>
                  <a href={`/books/accounts/${payer.contact.id}`}>{payer.contact.name}</a>{' '}
                  {billed ? null : (
                    <span data-screen-only="">
                      <Button
                        kind="plain"
                        aria-label={`${payer.contact.name} does not pay`}
                        aria-expanded={open === payer.id}
                        onClick={() => setOpen(open === payer.id ? null : payer.id)}
                      >
                        Does not pay
                      </Button>
                    </span>
                  )}
                </>
              ),
              takes: takesWords(payer, currency),
            },
          }))}
        />
      )}
      {ending ? (
        <EndForm payer={ending} onBack={() => setOpen(null)} />
      ) : billed ? null : (
        <div data-screen-only="">
          <Button
            aria-expanded={open === 'add'}
            onClick={() => setOpen(open === 'add' ? null : 'add')}
          >
            Somebody else pays a part
          </Button>
        </div>
      )}
      {open === 'add' ? (
        <PayerForm order={order} currency={currency} onBack={() => setOpen(null)} />
      ) : null}
    </section>
  );
}

function EndForm({ payer, onBack }: { payer: Payer; onBack: () => void }) {
  const [reason, setReason] = useState('');
  const ending = useDoing(
    async () =>
      (await request(EndPayerShareDocument, { input: { shareId: payer.id, reason } })).result,
    onBack,
  );
  return (
    <AskOnce
      question={`${payer.contact.name} does not pay after all: what they would have paid stays with the customer.`}
      yes="They do not pay"
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
        <ErrorNote head="Not recorded">{ending.error.message}</ErrorNote>
      )}
    </AskOnce>
  );
}

/** "60 % of items 1 and 3, less 500.00 deductible" */
function takesWords({ take, percent, amount, deductible, items }: Payer, currency: string): string {
  const of =
    items.length === 0
      ? 'the order'
      : `item${items.length === 1 ? '' : 's'} ${items.map(({ position }) => position).join(', ')}`;
  const much =
    take === 'percent'
      ? `${decimalText(percent ?? '0', 0)} % of ${of}`
      : take === 'sum'
        ? `${moneyText(BigInt(amount ?? '0'), currency)} of ${of}`
        : `all of ${of}`;
  return deductible === '0'
    ? much
    : `${much}, less ${moneyText(BigInt(deductible), currency)} deductible`;
}
