import type { FactKind } from './facts.ts';
import { useUnsentFacts } from './kept-facts.ts';
import styles from './safety.module.css';

/** What this device has noted of some kinds, about an item or an order, and the shop has not got yet. */
export function NotSent({ kinds, about }: { kinds: readonly FactKind[]; about: string }) {
  const facts = useUnsentFacts().filter(
    ({ does, input }) =>
      kinds.includes(does) &&
      (('itemId' in input && input.itemId === about) ||
        ('orderId' in input && input.orderId === about)),
  );
  if (facts.length === 0) return null;
  return (
    <ul className={styles.second}>
      {facts.map(({ id, words }) => (
        <li key={id}>{words}: noted here, not sent yet</li>
      ))}
    </ul>
  );
}
