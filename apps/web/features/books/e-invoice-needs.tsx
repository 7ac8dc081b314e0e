import styles from './books.module.css';
import type { Invoice } from './invoice-documents.ts';

/** Why there is no e-invoice of it: for a draft what can still be set, else what it was issued without. */
export function EInvoiceNeeds({ invoice }: { invoice: Invoice }) {
  const { eInvoiceLacks: lacks, state, credits } = invoice;
  if (lacks.length === 0) return null;
  const close =
    state === 'draft'
      ? 'The payer’s address is set here, the shop’s own on its sheet; an issued invoice keeps what was known then.'
      : credits === null
        ? 'It keeps what it was issued with. Set what is missing, credit it and bill the order again to have one.'
        : 'It keeps what it was issued with.';
  return (
    <details className={styles.needs}>
      <summary>
        {state === 'draft' ? 'As it is there would be no e-invoice' : 'There is no e-invoice of it'}
      </summary>
      <ul>
        {lacks.map((lack) => (
          <li key={lack}>{lack}</li>
        ))}
      </ul>
      <p className={styles.second}>{close}</p>
    </details>
  );
}
