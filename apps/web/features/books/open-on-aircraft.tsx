'use client';

import { useQuery } from '@tanstack/react-query';
import { graphql } from '../../graphql/document.ts';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { invoiceHref, invoiceName } from './invoice-words.ts';

const OpenOnAircraftDocument = graphql(`
  query OpenOnAircraft($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        registration
        openInvoices {
          id
          number
          owed
          currency
          credits {
            id
          }
          contact {
            name
          }
          order {
            id
            number
          }
        }
      }
    }
  }
`);

/** What is not paid on an aircraft, said as it is fetched. It warns: no record, release or thing is kept for it (common practice, no source). */
export function OpenOnAircraft({
  aircraftId,
  except,
  className,
}: {
  aircraftId: string;
  /** An order of which it is said elsewhere. */
  except?: string;
  className?: string | undefined;
}) {
  const { data } = useQuery({
    queryKey: ['openOnAircraft', aircraftId],
    queryFn: async () => (await request(OpenOnAircraftDocument, { id: aircraftId })).node,
  });
  if (data?.__typename !== 'Aircraft') return null;
  const open = data.openInvoices.filter(({ order }) => order.id !== except);
  if (open.length === 0) return null;
  return (
    <div className={className}>
      <p>
        {except === undefined ? 'Not paid' : 'Not paid of earlier work'} on {data.registration}:{' '}
        {open.map((invoice, index) => (
          <span key={invoice.id}>
            {index > 0 ? '; ' : ''}
            <a href={invoiceHref(invoice.id)}>{invoiceName(invoice)}</a>, order{' '}
            {invoice.order.number}, {invoice.contact.name},{' '}
            {moneyText(BigInt(invoice.owed), invoice.currency)} {invoice.currency}
          </span>
        ))}
        . It may go all the same: no record and no release is kept for money.
      </p>
    </div>
  );
}
