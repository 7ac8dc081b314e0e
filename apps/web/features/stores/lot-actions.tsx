'use client';

import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { IssueForm } from './issue-form.tsx';
import type { LotOnSheet } from './lot-documents.ts';
import { ReleaseForm, ReserveForm } from './reserve-form.tsx';
import { CountForm, ScrapForm } from './shelf-forms.tsx';
import styles from './stores.module.css';
import { PartsOutDocument } from './stores-documents.ts';

type Kept = LotOnSheet['reservedFor'][number];
type Hand = { does: 'issue' | 'reserve' | 'count' | 'scrap' } | { does: 'release'; kept: Kept };

/** What can be done with a lot, one thing at a time; and for whom it is kept. */
export function LotActions({ lot, today, who }: { lot: LotOnSheet; today: string; who: string }) {
  const [hand, setHand] = useState<Hand | null>(null);
  const [said, setSaid] = useState('');
  const cameFrom = useRef<string | null>(null);
  const ways = useRef<HTMLDivElement>(null);
  const out = useQuery({
    queryKey: ['partsOut'],
    queryFn: async () => (await request(PartsOutDocument)).orders.edges.map(({ node }) => node),
    enabled: hand?.does === 'issue',
  });
  // Whoever leaves a form goes on where they opened it.
  useEffect(() => {
    if (hand !== null || cameFrom.current === null) return;
    const back = ways.current?.querySelector<HTMLElement>(`[data-does="${cameFrom.current}"]`);
    cameFrom.current = null;
    (back ?? ways.current?.querySelector('button'))?.focus();
  }, [hand]);
  const open = (next: Hand) => {
    cameFrom.current = next.does;
    setSaid('');
    setHand(next);
  };
  const ends = {
    lot,
    onDone: (words: string) => {
      setSaid(words);
      setHand(null);
    },
    onLeave: () => setHand(null),
  };
  const empty = Number(lot.onHand) === 0;
  return (
    <section className={styles.part} aria-label="What can be done with it">
      {hand?.does === 'issue' ? (
        <IssueForm {...ends} orders={out.data ?? []} today={today} who={who} />
      ) : hand?.does === 'reserve' ? (
        <ReserveForm {...ends} />
      ) : hand?.does === 'count' ? (
        <CountForm {...ends} />
      ) : hand?.does === 'scrap' ? (
        <ScrapForm {...ends} />
      ) : hand?.does === 'release' ? (
        <ReleaseForm {...ends} kept={hand.kept} />
      ) : (
        <div className={styles.ways} data-screen-only="" ref={ways}>
          <Button data-does="issue" disabled={empty} onClick={() => open({ does: 'issue' })}>
            Issue
          </Button>
          <Button
            data-does="reserve"
            disabled={Number(lot.available) <= 0}
            onClick={() => open({ does: 'reserve' })}
          >
            Reserve for an order
          </Button>
          <Button data-does="count" onClick={() => open({ does: 'count' })}>
            Count
          </Button>
          <Button data-does="scrap" disabled={empty} onClick={() => open({ does: 'scrap' })}>
            Scrap
          </Button>
        </div>
      )}
      <p role="status" className={said === '' ? 'spoken' : styles.said}>
        {said}
      </p>
      {lot.reservedFor.length === 0 ? null : (
        <ul className={styles.keptFor} aria-label="Kept for orders">
          {lot.reservedFor.map((kept) => (
            <li key={kept.order.id}>
              <span>
                <span className={styles.figures}>{kept.quantity}</span> {lot.part.unit} kept for{' '}
                <b className={styles.place}>{kept.order.aircraft.registration}</b>,{' '}
                <SheetLink href={`/desk/orders/${encodeURIComponent(kept.order.id)}`}>
                  order {kept.order.number}
                </SheetLink>
                , {kept.order.title}
              </span>{' '}
              {hand === null ? (
                <span data-screen-only="">
                  <Button kind="plain" onClick={() => open({ does: 'release', kept })}>
                    Give it free<span className="spoken">, order {kept.order.number}</span>
                  </Button>
                </span>
              ) : null}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
