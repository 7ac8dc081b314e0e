import { moneyText } from '../../lib/figures/money.ts';
import { useShopNow } from '../../lib/use-shop-now.ts';
import styles from './bench.module.css';
import { type Costs, costNow } from './cost-now.ts';

/** What an order has cost of what was agreed, in figures and as a line with its end at the ceiling. It follows the clock. */
export function CostOfAgreed({
  order,
  currency,
  brief = false,
}: {
  order: Costs;
  currency: string;
  /** The line and its figures alone. */
  brief?: boolean;
}) {
  const known = costNow(order, useShopNow());
  if (known === null) {
    return (
      <p className={styles.cost}>
        {brief ? 'Cost not known' : 'Cost not known: the shop has no labour rate for today.'}
      </p>
    );
  }
  const { cost, agreed, beyond } = known;
  const whole = Number(cost > agreed ? cost : agreed);
  const at = (amount: bigint) => (whole === 0 ? 0 : (Number(amount) / whole) * 100);
  return (
    <div className={styles.cost}>
      <svg viewBox="0 0 100 16" preserveAspectRatio="none" aria-hidden="true">
        <path className={styles.relation} d="M0 8H100" />
        <path className={styles.spent} data-beyond={beyond > 0n} d={`M0 8H${at(cost)}`} />
        <path className={styles.outline} d={`M0 1V15M${at(agreed)} 1V15`} />
      </svg>
      <p className={brief && beyond > 0n ? styles.beyond : undefined}>
        <span className={styles.figures}>{moneyText(cost, currency)}</span> of{' '}
        <span className={styles.figures}>{moneyText(agreed, currency)}</span> {currency}
        {brief && beyond > 0n ? ': beyond it' : ' agreed'}
      </p>
      {beyond > 0n && !brief ? (
        <p className={styles.beyond}>
          <span className={styles.figures}>{moneyText(beyond, currency)}</span> beyond what the
          owner agreed to: the desk sees it. Keep the clock true.
        </p>
      ) : null}
    </div>
  );
}
