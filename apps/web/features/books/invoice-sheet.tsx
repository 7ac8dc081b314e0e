'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { ButtonLink } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { CalendarDate, Day } from '../../components/Figure.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import type { TitleBlockContent } from '../../components/TitleBlock.tsx';
import { request } from '../../graphql/request.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { Agreed } from './agreed.tsx';
import styles from './books.module.css';
import { invoiceKeys } from './books-keys.ts';
import { CoresPart } from './cores-part.tsx';
import { Difference } from './difference.tsx';
import { InvoiceActions } from './invoice-actions.tsx';
import { type Invoice, InvoiceSheetDocument } from './invoice-documents.ts';
import { InvoiceHead } from './invoice-head.tsx';
import { InvoiceLines } from './invoice-lines.tsx';
import { invoiceName, stateWords } from './invoice-words.ts';
import { Payments } from './payments.tsx';

const notes = [
  'An issued invoice is never changed: a mistake is taken back whole by a credit note.',
  'Hours are billed in the steps of the shop’s rule; tax is rounded once for each category and rate.',
  'Letters beside a rate are the tax categories of EN 16931: S standard rate, Z zero rate, E exempt.',
  'Approval for return to service is in the record entry and nowhere on this sheet.',
];

/** One invoice as a parts list, and why it differs from the quote, to the cent. */
export function InvoiceSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const queries = useQueryClient();
  const asked = useQuery({
    queryKey: ['invoice', id],
    queryFn: async () => (await request(InvoiceSheetDocument, { id })).node,
    enabled: viewer.data !== undefined,
  });
  const invoice = asked.data?.__typename === 'Invoice' ? asked.data : null;
  const problem = viewer.error ?? asked.error;
  return (
    <Sheet
      keys={invoiceKeys}
      here="books"
      viewer={viewer.data ? viewer.data.person : null}
      title={invoice === null ? 'Invoice' : invoiceName(invoice)}
      notes={notes}
      titleBlock={titleBlock(invoice, viewer.data)}
    >
      {invoice && viewer.data ? (
        <div className={styles.sections}>
          <InvoiceHead invoice={invoice} shop={viewer.data.shop} />
          <InvoiceActions
            key={`${invoice.id} ${invoice.state}`}
            invoice={invoice}
            shop={viewer.data.shop}
            onDone={() =>
              Promise.all([
                queries.invalidateQueries({ queryKey: ['invoice'] }),
                queries.invalidateQueries({ queryKey: ['books'] }),
                queries.invalidateQueries({ queryKey: ['ordersToBill'] }),
              ])
            }
          />
          {invoice.endedExemptions.map((words) => (
            <p key={words}>{words}</p>
          ))}
          <CoresPart invoice={invoice} />
          <InvoiceLines invoice={invoice} />
          {invoice.credits === null ? <Agreed invoice={invoice} /> : null}
          <Difference invoice={invoice} />
          <Payments invoice={invoice} timeZone={viewer.data.shop.timeZone} />
        </div>
      ) : problem ? (
        <NoAnswer
          head="No invoice to show"
          problem={problem}
          onAgain={() => void queries.refetchQueries()}
        />
      ) : asked.isSuccess ? (
        <Empty draws="sheet" action={<ButtonLink href="/books">To the books</ButtonLink>}>
          There is no such invoice in this shop.
        </Empty>
      ) : (
        <Loading>Fetching the invoice</Loading>
      )}
    </Sheet>
  );
}

/** The hash in eights, so that two of them can be compared by eye. */
const inEights = (hash: string) => hash.replace(/(.{8})(?=.)/g, '$1 ');

function titleBlock(invoice: Invoice | null, viewer: Viewer | undefined): TitleBlockContent {
  if (invoice === null || viewer === undefined) return { what: 'Invoice', cells: [] };
  const { order, issuedAt, dueOn } = invoice;
  const { timeZone, name } = viewer.shop;
  const day = issuedAt ?? invoice.draftedAt;
  return {
    what: `${invoiceName(invoice)}, ${order.title}`,
    cells: [
      { label: 'Aircraft', value: order.aircraft.registration, figures: true },
      { label: 'Order', value: order.number, figures: true },
      { label: 'State', value: stateWords(invoice, BigInt(invoice.owed)) },
      {
        label: issuedAt === null ? 'Drafted' : 'Issued',
        value: <Day at={day} timeZone={timeZone} />,
        figures: true,
      },
      {
        label: 'Due',
        value: dueOn === null ? '' : <CalendarDate date={dueOn} />,
        figures: true,
      },
      { label: 'Shop', value: name },
      {
        label: 'Hash of its link in the chain',
        value:
          invoice.chainHash === null
            ? 'a draft has none: it can still be changed'
            : inEights(invoice.chainHash),
        span: 'whole',
        figures: invoice.chainHash !== null,
      },
    ],
  };
}
