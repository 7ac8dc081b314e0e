import { Figure, Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { Difference } from '../books/difference.tsx';
import { decimalText, notesOf, quantityWords } from '../books/invoice-figures.ts';
import styles from './owner.module.css';
import type { OwnerInvoice } from './owner-page.ts';

/** An issued invoice as a parts list, and the way to it from the quote as a chain that closes exactly. */
export function OwnerInvoicePart({
  invoice,
  timeZone,
}: {
  invoice: OwnerInvoice;
  timeZone: string;
}) {
  const { number, credit, currency, lines, issuedAt, dueOn } = invoice;
  const money = (minor: string) => <Money minor={BigInt(minor)} currency={currency} />;
  const sum = (key: 'net' | 'tax' | 'rounding' | 'gross' | 'paid' | 'owed', title: string) => ({
    key: `invoice-${number}-${key}`,
    cells: { title, net: money(invoice[key]) },
  });
  return (
    <section className={styles.part} aria-labelledby={`invoice-${number}`}>
      <h2 id={`invoice-${number}`}>
        {credit ? 'Credit note' : 'Invoice'} {number}
      </h2>
      <p className={styles.quiet}>
        Issued {dayText(issuedAt, timeZone)}
        {dueOn === null ? '' : `, to be paid by ${calendarDateText(dueOn)}`}
      </p>
      <PartsList
        caption="What is billed, before tax"
        columns={[
          { key: 'title', head: 'What' },
          { key: 'quantity', head: 'Quantity', kind: 'figure' },
          { key: 'price', head: `Each, ${currency}`, kind: 'figure' },
          { key: 'net', head: currency, kind: 'figure' },
        ]}
        rows={lines.map((line) => ({
          key: `invoice-${number}-${line.position}`,
          balloon: line.position,
          ...(notesOf(line) !== '' && { note: notesOf(line) }),
          cells: {
            title: line.title,
            quantity: quantityWords(line),
            price: line.unit === 'job' ? null : <Figure text={decimalText(line.unitPrice, 2)} />,
            net: money(line.net),
          },
        }))}
        foot={[
          sum('net', 'Net'),
          sum('tax', 'Tax'),
          ...(invoice.rounding === '0' ? [] : [sum('rounding', 'Rounding between the payers')]),
          sum('gross', 'With tax'),
          ...(credit ? [] : [sum('paid', 'Paid'), sum('owed', 'Still owed')]),
        ]}
      />
      {credit ? null : <Difference invoice={invoice} />}
    </section>
  );
}
