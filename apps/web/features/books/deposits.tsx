'use client';

import { formatAmount, currency as knownCurrency, minor } from '@fairlead/money';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Select } from '../../components/Field.tsx';
import { Day, Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { paperHref } from '../../lib/paper-href.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './books.module.css';
import {
  type Deposit,
  DepositsOfOrderDocument,
  RefundDepositDocument,
  TakeDepositDocument,
} from './deposit-documents.ts';
import { MoneyForm } from './money-form.tsx';

/** What was taken for an order before its invoice: taking it, what is left of it, and paying that back. */
export function Deposits({
  orderId,
  payers,
  over,
  shop,
}: {
  orderId: string;
  /** Whose money it may be. */
  payers: readonly { value: string; words: string }[];
  /** Whether the order has come to its end. */
  over: boolean;
  shop: Viewer['shop'];
}) {
  const [open, setOpen] = useState<string | null>(null);
  const [payer, setPayer] = useState(payers[0]?.value ?? '');
  const asked = useQuery({
    queryKey: ['deposits', orderId],
    queryFn: async () => (await request(DepositsOfOrderDocument, { id: orderId })).node,
  });
  const order = asked.data?.__typename === 'WorkOrder' ? asked.data : null;
  if (asked.error !== null)
    return <ErrorNote head="No deposits to show">{asked.error.message}</ErrorNote>;
  if (order === null) return null;
  const billed = order.invoices.some(
    ({ state, credits }) => state === 'issued' && credits === null,
  );
  /** Closes this form and no other: what was recorded is read anew first, and somebody may have opened the next meanwhile. */
  const closing = (which: string) => () => setOpen((before) => (before === which ? null : before));
  const { deposits } = order;
  const refunded = deposits.find(({ id }) => id === open);
  if (deposits.length === 0 && (billed || over)) return null;
  return (
    <section className={styles.list} aria-label="Deposits">
      {deposits.length === 0 ? (
        <h2 className={styles.head}>Deposits</h2>
      ) : (
        <PartsList
          caption={`Deposits, ${shop.currency}`}
          columns={[
            { key: 'what', head: 'What' },
            { key: 'amount', head: 'Taken', kind: 'figure' },
            { key: 'left', head: 'Left', kind: 'figure' },
          ]}
          rows={deposits.map((deposit) => ({
            key: deposit.id,
            note: <Became deposit={deposit} />,
            cells: {
              what: (
                <>
                  <a href={paperHref('receipt', deposit.id)}>Receipt {deposit.number}</a>,{' '}
                  {deposit.contact.name}, {deposit.method},{' '}
                  <Day at={deposit.paidAt} timeZone={shop.timeZone} />{' '}
                  {deposit.left === '0' ? null : (
                    <span data-screen-only="">
                      <Button
                        kind="plain"
                        aria-label={`Pay back of receipt ${deposit.number}`}
                        aria-expanded={open === deposit.id}
                        onClick={() => setOpen(open === deposit.id ? null : deposit.id)}
                      >
                        Pay back
                      </Button>
                    </span>
                  )}
                </>
              ),
              amount: <Money minor={BigInt(deposit.amount)} currency={deposit.currency} />,
              left: <Money minor={BigInt(deposit.left)} currency={deposit.currency} />,
            },
          }))}
        />
      )}
      {billed || over ? null : (
        <div data-screen-only="">
          <Button
            aria-expanded={open === 'take'}
            onClick={() => setOpen(open === 'take' ? null : 'take')}
          >
            Take a deposit
          </Button>
        </div>
      )}
      {open === 'take' ? (
        <MoneyForm
          name="Take a deposit"
          words="It is set against the invoice when that is issued; what is left over is paid back."
          yes="Take it"
          currency={shop.currency}
          amount=""
          onBack={closing('take')}
          act={async (typed) =>
            (await request(TakeDepositDocument, { input: { orderId, contactId: payer, ...typed } }))
              .takeDeposit
          }
        >
          <Select
            label="From whom"
            value={payer}
            onChange={(event) => setPayer(event.currentTarget.value)}
            options={payers}
          />
        </MoneyForm>
      ) : null}
      {refunded ? (
        <MoneyForm
          key={refunded.id}
          name={`Pay back of receipt ${refunded.number}`}
          words={`Left: ${moneyText(BigInt(refunded.left), refunded.currency)} ${refunded.currency}. What is recorded is never changed.`}
          yes="Pay it back"
          currency={refunded.currency}
          amount={formatAmount(minor(BigInt(refunded.left)), knownCurrency(refunded.currency))}
          onBack={closing(refunded.id)}
          act={async (typed) =>
            (await request(RefundDepositDocument, { input: { depositId: refunded.id, ...typed } }))
              .refundDeposit
          }
        />
      ) : null}
    </section>
  );
}

/** What became of a deposit, in words. */
function Became({ deposit }: { deposit: Deposit }) {
  const said = [
    ...deposit.setAgainst.map(({ id, amount, invoice }) => ({
      id,
      words: BigInt(amount) < 0n ? 'freed from' : 'set against',
      amount,
      invoice,
    })),
    ...deposit.refunds.map(({ id, amount }) => ({
      id,
      words: 'paid back',
      amount,
      invoice: null,
    })),
  ];
  return said.map(({ id, words, amount, invoice }, index) => {
    const size = BigInt(amount) < 0n ? -BigInt(amount) : BigInt(amount);
    return (
      <span key={id}>
        {index === 0 ? '' : ' · '}
        <Money minor={size} currency={deposit.currency} /> {words}
        {invoice === null ? null : (
          <>
            {' '}
            <a href={`/books/${invoice.id}`}>invoice {invoice.number}</a>
          </>
        )}
      </span>
    );
  });
}
