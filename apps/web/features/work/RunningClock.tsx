'use client';

import { useShopNow } from '../../lib/use-shop-now.ts';
import styles from './bench.module.css';

/** Hours and minutes since a time, by the shop's clock as this device knows it; the colon shows that it runs. */
export function RunningClock({ since, small = false }: { since: string; small?: boolean }) {
  const now = useShopNow();
  const minutes = Math.max(0, Math.floor((now - Date.parse(since)) / 60_000));
  const hours = Math.floor(minutes / 60);
  return (
    <p className={small ? styles.smallClock : styles.clock} role="timer" suppressHydrationWarning>
      <span className="spoken">{`${hours} hours ${minutes % 60} minutes`}</span>
      <span aria-hidden="true">
        {hours}
        <span className={styles.colon}>:</span>
        {String(minutes % 60).padStart(2, '0')}
      </span>
    </p>
  );
}
