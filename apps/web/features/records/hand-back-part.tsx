'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import type { Role } from '../../components/sheets.ts';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { OpenOnAircraft } from '../books/open-on-aircraft.tsx';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './records.module.css';
import type { OrderToSign } from './records-documents.ts';
import { CloseOrderDocument, HandBackDocument } from './records-mutations.ts';
import { unpaidWords } from './records-words.ts';

/** What came with the aircraft goes back with it, thing by thing; then the order is closed. */
export function HandBackPart({
  order,
  shop: { currency, timeZone },
  roles,
}: {
  order: OrderToSign;
  shop: { currency: string; timeZone: string };
  roles: readonly Role[];
}) {
  const [given, setGiven] = useState<readonly string[]>([]);
  const kept = order.received.filter(({ returnedAt }) => returnedAt == null);
  const back = order.received.filter(({ returnedAt }) => returnedAt != null);
  const desk = roles.includes('front_desk') || roles.includes('manager');
  const hand = useDoing(
    async (returned: readonly string[]) =>
      (await request(HandBackDocument, { input: { orderId: order.id, returned: [...returned] } }))
        .handBack,
    () => setGiven([]),
  );
  const close = useDoing(
    async () => (await request(CloseOrderDocument, { input: { orderId: order.id } })).closeOrder,
  );
  const problem = hand.error ?? close.error;
  const unpaid = unpaidWords(order, currency);
  return (
    <section className={styles.part} aria-labelledby="hand-back">
      <h2 id="hand-back">Hand-back</h2>
      {unpaid === null ? null : (
        <p className={styles.caution}>
          {unpaid} <a href="/books">To the books</a>
        </p>
      )}
      <OpenOnAircraft aircraftId={order.aircraft.id} except={order.id} className={styles.caution} />
      {back.map(({ id, what, returnedAt }) => (
        <p key={id} className={styles.quiet}>
          {what}: given back {returnedAt == null ? '' : dayAndTimeText(returnedAt, timeZone)}
        </p>
      ))}
      {kept.length === 0 ? null : (
        <fieldset className={styles.ticks}>
          <legend className={styles.quiet}>Came with the aircraft, and still here</legend>
          {kept.map(({ id, what }) => (
            <Tick
              key={id}
              name={`thing-${id}`}
              words={what}
              ticked={given.includes(id)}
              onTick={(ticked) =>
                setGiven(ticked ? [...given, id] : given.filter((each) => each !== id))
              }
            />
          ))}
        </fieldset>
      )}
      {problem === null ? null : <ErrorNote head="Not recorded">{problem.message}</ErrorNote>}
      <div className={styles.row} data-screen-only="">
        {kept.length === 0 ? null : (
          <Button
            disabled={given.length === 0}
            busy={hand.isPending ? 'Recording' : undefined}
            onClick={() => hand.mutate(given)}
          >
            Given back
          </Button>
        )}
        {order.state === 'released' && desk && kept.length === 0 ? (
          <Button
            kind="primary"
            busy={close.isPending ? 'Closing' : undefined}
            onClick={() => close.mutate(undefined)}
          >
            Close order {order.number}
          </Button>
        ) : null}
      </div>
      {order.state === 'closed' ? (
        <p>Order {order.number} is closed.</p>
      ) : (
        <p className={styles.quiet}>
          A record and the owner’s things are never kept for an unpaid invoice.
        </p>
      )}
    </section>
  );
}
