'use client';

import { useEffect, useState } from 'react';
import styles from './bench.module.css';

/** Hours and minutes since a time, by this device's clock; the colon shows that it runs. */
export function RunningClock({ since }: { since: string }) {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  const minutes = Math.max(0, Math.floor((now - Date.parse(since)) / 60_000));
  const hours = Math.floor(minutes / 60);
  return (
    <p className={styles.clock} role="timer" suppressHydrationWarning>
      <span className="spoken">{`${hours} hours ${minutes % 60} minutes`}</span>
      <span aria-hidden="true">
        {hours}
        <span className={styles.colon}>:</span>
        {String(minutes % 60).padStart(2, '0')}
      </span>
    </p>
  );
}
