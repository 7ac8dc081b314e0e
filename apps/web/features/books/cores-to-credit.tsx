'use client';

import { useQuery } from '@tanstack/react-query';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { InvoicesToCreditDocument } from './core-documents.ts';
import { invoiceHref } from './invoice-words.ts';

/** Invoices on which the charge for an old part that came is to be given back; nothing where there is none. */
export function CoresToCredit() {
  const asked = useQuery({
    queryKey: ['books', 'coresToCredit'],
    queryFn: () => request(InvoicesToCreditDocument),
  });
  if (asked.error) return <ErrorNote head="No cores to show">{asked.error.message}</ErrorNote>;
  const invoices = asked.data?.invoicesToCredit ?? [];
  if (invoices.length === 0) return null;
  return (
    <PartsList
      caption="Old parts came back: their charge is to be given back, net"
      columns={[
        { key: 'what', head: 'Invoice' },
        { key: 'who', head: 'Who pays' },
        { key: 'amount', head: 'To give back', kind: 'figure' },
      ]}
      rows={invoices.map(({ id, number, currency, contact, order, coresToCredit }) => ({
        key: id,
        note: coresToCredit.map(({ line }) => line.title.split(':')[0]).join(', '),
        cells: {
          what: (
            <a href={invoiceHref(id)}>
              Invoice {number}, {order.aircraft.registration}
            </a>
          ),
          who: contact.name,
          amount: (
            <Money
              minor={coresToCredit.reduce((sum, { amount }) => sum + BigInt(amount), 0n)}
              currency={currency}
            />
          ),
        },
      }))}
    />
  );
}
