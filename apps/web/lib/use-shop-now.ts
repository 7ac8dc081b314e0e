import { useEffect, useState } from 'react';
import { shopClock } from './shop-clock.ts';

/** The shop's time as this device knows it, milliseconds since 1970, every second anew. Asks nobody. */
export function useShopNow(): number {
  const [now, setNow] = useState(() => shopClock.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(shopClock.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  return now;
}
