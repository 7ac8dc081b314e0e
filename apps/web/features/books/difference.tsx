import { ChainDimension } from '../../components/ChainDimension.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { More } from '../../components/More.tsx';
import { moneyText } from '../../lib/figures/money.ts';
import styles from './books.module.css';
import type { Invoice } from './invoice-documents.ts';
import { differenceOf } from './invoice-figures.ts';

/** From the quote to the invoice as a chain dimension that closes exactly, or says that it does not. */
export function Difference({
  invoice,
}: {
  invoice: Pick<Invoice, 'quoted' | 'net' | 'currency' | 'difference'> &
    Partial<Pick<Invoice, 'differenceEvidence'>>;
}) {
  const difference = differenceOf(invoice);
  if (difference === null) return null;
  const { steps, byReason, closes } = difference;
  if (!closes) {
    return (
      <ErrorNote head="The difference does not close">
        The steps from the quote do not add up to what is billed. Draft the invoice again; if they
        still do not, this is a fault of the program.
      </ErrorNote>
    );
  }
  const chain = { unit: invoice.currency, total: 'billed, net', fineness: 'exact' as const };
  return (
    <section className={styles.difference}>
      <h2>From the quote to this invoice, net</h2>
      <ChainDimension steps={byReason} {...chain} />
      {byReason === steps ? null : (
        <details>
          <summary>Line by line, in {steps.length - 1} steps</summary>
          <ChainDimension steps={steps} {...chain} />
        </details>
      )}
      <Evidence invoice={invoice} />
    </section>
  );
}

/** What each step rests on: the answers, times and lots behind it. */
function Evidence({
  invoice: { difference, differenceEvidence = [], currency },
}: {
  invoice: Pick<Invoice, 'difference' | 'currency'> & Partial<Pick<Invoice, 'differenceEvidence'>>;
}) {
  const rests = difference.flatMap(({ title, amount }, index) => {
    const sentences = differenceEvidence[index]?.sentences ?? [];
    return sentences.length === 0 ? [] : [{ title, amount: BigInt(amount), sentences }];
  });
  if (rests.length === 0) return null;
  return (
    <More words="What each step rests on: answers, times and lots">
      {rests.map(({ title, amount, sentences }) => (
        <details key={title} className={styles.rests}>
          <summary>
            {title}: {amount > 0n ? '+' : ''}
            {moneyText(amount, currency)}
          </summary>
          <ul>
            {sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </details>
      ))}
    </More>
  );
}
