import { Figure, Money } from '../../components/Figure.tsx';
import { PartsList, type PartsRow } from '../../components/PartsList.tsx';
import type { Invoice } from './invoice-documents.ts';
import { decimalText, notesOf, quantityWords, taxByCategory } from './invoice-figures.ts';

const taxWords = (code: string, rate: string) => `${code} ${decimalText(rate, 0)} %`;

/** What is billed, and the tax by category under it. */
export function InvoiceLines({ invoice }: { invoice: Invoice }) {
  const { currency, lines, net, tax, gross, rounding, credits } = invoice;
  const money = (minor: bigint) => <Money minor={minor} currency={currency} />;
  const shares = taxByCategory(invoice);
  const sums: PartsRow[] = [
    { key: 'net', cells: { title: 'Net', net: money(BigInt(net)) } },
    ...(shares ?? []).map(({ code, rate, base, amount }) => ({
      key: `tax-${code}-${rate}`,
      cells: {
        title: (
          <>
            Tax {taxWords(code, rate)} on {money(base)}
          </>
        ),
        net: money(amount),
      },
    })),
    ...(shares === null ? [{ key: 'tax', cells: { title: 'Tax', net: money(BigInt(tax)) } }] : []),
    ...(rounding === '0'
      ? []
      : [
          {
            key: 'rounding',
            cells: { title: 'Rounding between the payers', net: money(BigInt(rounding)) },
          },
        ]),
    {
      key: 'gross',
      cells: {
        title: <b>With tax</b>,
        net: <b>{money(BigInt(gross))}</b>,
      },
    },
  ];
  return (
    <PartsList
      caption={credits === null ? 'What is billed, before tax' : 'What is taken back, before tax'}
      columns={[
        { key: 'title', head: 'What' },
        { key: 'quantity', head: 'Quantity', kind: 'figure' },
        { key: 'price', head: `Each, ${currency}`, kind: 'figure' },
        { key: 'tax', head: 'Tax', kind: 'figure' },
        { key: 'net', head: currency, kind: 'figure' },
      ]}
      rows={lines.map((line) => ({
        key: line.id,
        balloon: line.position,
        ...(notesOf(line) !== '' && { note: notesOf(line) }),
        cells: {
          title: line.title,
          quantity: quantityWords(line),
          price: line.unit === 'job' ? null : <Figure text={decimalText(line.unitPrice, 2)} />,
          tax: taxWords(line.taxCode, line.taxRate),
          net: money(BigInt(line.net)),
        },
      }))}
      foot={sums}
    />
  );
}
