'use client';

import { formatAmount, currency as knownCurrency, minor } from '@fairlead/money';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import type { Stated } from './account-documents.ts';
import styles from './books.module.css';
import { PayBackDocument } from './core-documents.ts';
import { invoiceHref } from './invoice-words.ts';
import { MoneyForm } from './money-form.tsx';

/** Invoices on which more was paid than is owed, as after a credit note, and the paying back of it. */
export function PayBackPart({ invoices }: { invoices: Stated['statement']['payBackOn'] }) {
  const [open, setOpen] = useState<string | null>(null);
  const opened = invoices.find(({ id }) => id === open);
  if (invoices.length === 0) return null;
  const over = (owed: string) => -BigInt(owed);
  return (
    <section className={styles.list} aria-label="To be paid back">
      <PartsList
        caption="To be paid back today, with tax"
        columns={[
          { key: 'what', head: 'On which invoice' },
          { key: 'amount', head: 'To be paid back', kind: 'figure' },
        ]}
        rows={invoices.map(({ id, number, currency, owed }) => ({
          key: id,
          cells: {
            what: (
              <>
                <a href={invoiceHref(id)}>Invoice {number}</a>{' '}
                <span data-screen-only="">
                  <Button
                    kind="plain"
                    aria-label={`Pay back on invoice ${number}`}
                    aria-expanded={open === id}
                    onClick={() => setOpen(open === id ? null : id)}
                  >
                    Pay back
                  </Button>
                </span>
              </>
            ),
            amount: <Money minor={over(owed)} currency={currency} />,
          },
        }))}
      />
      {opened ? (
        <MoneyForm
          key={opened.id}
          name={`Pay back on invoice ${opened.number}`}
          words={`To be paid back: ${moneyText(over(opened.owed), opened.currency)} ${opened.currency}. What is recorded is never changed.`}
          yes="Pay it back"
          currency={opened.currency}
          amount={formatAmount(minor(over(opened.owed)), knownCurrency(opened.currency))}
          onBack={() => setOpen(null)}
          act={async (typed) =>
            (await request(PayBackDocument, { input: { invoiceId: opened.id, ...typed } })).payBack
          }
        />
      ) : null}
    </section>
  );
}
