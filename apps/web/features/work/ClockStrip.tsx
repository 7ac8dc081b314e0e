'use client';

import type { ReactNode } from 'react';
import { SheetLink } from '../../components/SheetLink.tsx';
import { CostOfAgreed } from './CostOfAgreed.tsx';
import styles from './clock-strip.module.css';
import type { Costs } from './cost-now.ts';
import { RunningClock } from './RunningClock.tsx';

/** What the clock of whoever reads runs on, across the head of every sheet but the one that says it larger. */
export function ClockStrip({
  since,
  title,
  order,
  currency,
}: {
  /** ISO 8601, by the shop's clock. */
  since: string;
  title: string;
  /** Null: not known here yet. */
  order: (Costs & { aircraft: { registration: string } }) | null;
  currency: string;
}): ReactNode {
  return (
    <section className={styles.strip} aria-label="Your running clock" data-screen-only>
      <RunningClock key={since} since={since} small />
      <p className={styles.what}>
        <SheetLink href="/bench">{title}</SheetLink>
        {order === null ? null : <span>{order.aircraft.registration}</span>}
      </p>
      {order === null ? null : <CostOfAgreed order={order} currency={currency} brief />}
    </section>
  );
}
