import { Money } from '../../components/Figure.tsx';
import { At, End } from '../../components/marks.tsx';
import { commonScale, percent } from '../../lib/figures/quantity.ts';
import styles from './books.module.css';
import type { Invoice } from './invoice-documents.ts';

/** How far the owner's yes went, what is billed of it, and what was worked beyond it and is not. */
export function Agreed({ invoice }: { invoice: Invoice }) {
  const { currency } = invoice;
  const [agreed, net, beyond] = [
    BigInt(invoice.agreed),
    BigInt(invoice.net),
    BigInt(invoice.beyond),
  ];
  const scale = commonScale([agreed, net + beyond]);
  const at = (value: bigint) => `${percent(value, scale)}%`;
  return (
    <section className={styles.agreed}>
      <h2>Against what was agreed, net</h2>
      <svg aria-hidden="true">
        <line className={styles.base} x1="0" x2={at(agreed)} y1="24" y2="24" />
        <line x1="0" x2={at(net)} y1="24" y2="24" stroke="currentColor" strokeWidth="2" />
        <line
          x1={at(net)}
          x2={at(net + beyond)}
          y1="24"
          y2="24"
          stroke="currentColor"
          strokeDasharray="6 4"
        />
        <End x="0" y="24" />
        <End x={at(net)} y="24" />
        {beyond > 0n ? <End x={at(net + beyond)} y="24" /> : null}
        <At x={at(agreed)} y="24">
          <path d="M0-20V16" stroke="currentColor" strokeWidth="2" />
          <path d="M0-20H-9M0-15H-9M0-10H-9" stroke="currentColor" />
        </At>
      </svg>
      <dl>
        <div>
          <dt>Billed</dt>
          <dd>
            <Money minor={net} currency={currency} />
          </dd>
        </div>
        <div>
          <dt>Agreed up to</dt>
          <dd>
            <Money minor={agreed} currency={currency} />
          </dd>
        </div>
        <div data-beyond={beyond > 0n ? '' : undefined}>
          <dt>Worked beyond authority, not billed</dt>
          <dd>
            <Money minor={beyond} currency={currency} showCurrency />
          </dd>
        </div>
      </dl>
    </section>
  );
}
