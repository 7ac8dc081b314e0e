import { Day, Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import type { Invoice } from './invoice-documents.ts';

/** What was paid on an issued invoice, and what is owed after it. */
export function Payments({ invoice, timeZone }: { invoice: Invoice; timeZone: string }) {
  const { currency, payments, creditNotes, owed, gross } = invoice;
  if (invoice.issuedAt === null || invoice.credits !== null) return null;
  const money = (minor: bigint) => <Money minor={minor} currency={currency} />;
  const balance = BigInt(owed);
  return (
    <PartsList
      caption="Paid and owed"
      columns={[
        { key: 'what', head: 'What' },
        { key: 'date', head: 'When', kind: 'figure' },
        { key: 'amount', head: `With tax, ${currency}`, kind: 'figure' },
      ]}
      rows={[
        {
          key: 'billed',
          cells: {
            what: 'Billed',
            date: <Day at={invoice.issuedAt} timeZone={timeZone} />,
            amount: money(BigInt(gross)),
          },
        },
        ...payments.map(({ id, method, paidAt, amount, deposit }) => ({
          key: id,
          cells: {
            what: `${BigInt(amount) >= 0n ? 'Paid' : deposit === null ? 'Paid back' : 'Freed'}, ${method}`,
            date: <Day at={paidAt} timeZone={timeZone} />,
            amount: money(-BigInt(amount)),
          },
        })),
        ...creditNotes.map((note) => ({
          key: note.id,
          cells: {
            what: `Credit note ${note.number}${note.inPart ? ', for cores that came' : ''}`,
            amount: money(BigInt(note.gross)),
          },
        })),
      ]}
      foot={[
        {
          key: 'owed',
          cells: {
            what: <b>{balance < 0n ? 'To be paid back' : 'Owed'}</b>,
            amount: <b>{money(balance < 0n ? -balance : balance)}</b>,
          },
        },
      ]}
    />
  );
}
