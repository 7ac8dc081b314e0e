import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { meterWords, readingText } from './meters.ts';
import type { OrderData } from './order-documents.ts';
import styles from './order-sheet.module.css';

/** What was written down when the aircraft came. */
export function Arrival({ order, timeZone }: { order: OrderData; timeZone: string }) {
  const arrived = order.events.find(({ kind }) => kind === 'arrived');
  return (
    <section className={styles.lines} aria-label="Arrival">
      <h2>Arrival</h2>
      {arrived === undefined ? null : <p>{dayAndTimeText(arrived.at, timeZone)}</p>}
      <ul className={styles.lines}>
        {order.readings.map(({ id, meter, readingHundredths, tisHundredths }) => (
          <li key={id}>
            {meterWords[meter]} {readingText(readingHundredths)} h, time in service{' '}
            {readingText(tisHundredths)} h
          </li>
        ))}
        {order.squawks.map(({ id, words, reportedBy }) => (
          <li key={id}>
            “{words}” {reportedBy}
          </li>
        ))}
        {order.received.map(({ id, what, returnedAt }) => (
          <li key={id}>
            {what}
            {returnedAt === null ? '' : `, given back ${dayAndTimeText(returnedAt, timeZone)}`}
          </li>
        ))}
      </ul>
    </section>
  );
}
