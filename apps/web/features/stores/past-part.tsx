import { Tick } from '../../components/Choice.tsx';
import { LongField } from '../../components/Field.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { moneyText } from '../../lib/figures/money.ts';
import { AskForMore } from '../quoting/ask-for-more.tsx';
import { againstWords } from './issue-against.ts';
import type { Purchase } from './purchase-documents.ts';
import styles from './stores.module.css';

/** Which owners would have to be asked before a draft is sent; asking is one touch away. */
export function PastPart({ purchase: { pastAuthority, currency } }: { purchase: Purchase }) {
  if (pastAuthority.length === 0) return null;
  return (
    <section className={styles.against} aria-label="Past what owners agreed to">
      {pastAuthority.map(({ order, beyond, ceiling }) => (
        <div key={order.id}>
          <p>
            Sent, it takes{' '}
            <SheetLink href={`/desk/orders/${encodeURIComponent(order.id)}`}>
              order {order.number}, {order.aircraft.registration}
            </SheetLink>
            , {moneyText(BigInt(beyond), currency)} {currency} past the{' '}
            {moneyText(BigInt(ceiling), currency)} {currency} that are agreed: at what its parts are
            billed at, with what is at the work and on order for it.
          </p>
          <AskForMore orderId={order.id} amount={beyond} currency={currency} />
        </div>
      ))}
    </section>
  );
}

/** Sent past what an owner agreed to: known, and for a reason under a name. */
export function SendAllTheSame({
  known,
  reason,
  who,
  onKnown,
  onReason,
}: {
  known: boolean;
  reason: string;
  who: string;
  onKnown: (yes: boolean) => void;
  onReason: (words: string) => void;
}) {
  return (
    <div className={styles.against}>
      <Tick
        name="beyond_authority"
        words={`I know that it goes ${againstWords.beyond_authority}`}
        ticked={known}
        onTick={onKnown}
      />
      <LongField
        label="Why it is sent all the same"
        hint={`Kept with the order, under your name: ${who}`}
        rows={2}
        maxLength={300}
        value={reason}
        onChange={(event) => onReason(event.currentTarget.value)}
      />
    </div>
  );
}
