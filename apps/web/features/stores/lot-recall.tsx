import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { lotHref } from './addresses.ts';
import { againstText } from './issue-against.ts';
import type { LotOnSheet } from './lot-documents.ts';
import styles from './stores.module.css';

/** Everything from this lot: which aircraft, which work, how much, when, and whether it came back. To print as well. */
export function LotRecall({ lot, timeZone }: { lot: LotOnSheet; timeZone: string }) {
  const { part, wentTo, sameBatch } = lot;
  const aircraft = new Set(
    wentTo.filter(({ stillOn }) => stillOn !== '0').map(({ item }) => item.order.aircraft.id),
  );
  return (
    <section className={styles.part} aria-labelledby="went-to">
      <h2 id="went-to" className={styles.caption}>
        Where it went
      </h2>
      <p className={styles.second}>
        {wentTo.length === 0
          ? 'Nothing of this lot was issued: all of it is on the shelf or was scrapped.'
          : `${aircraft.size} aircraft ${aircraft.size === 1 ? 'has' : 'have'} something of it, as far as the stores know. What was taken off since stands in the records of the aircraft.`}
      </p>
      {wentTo.length === 0 ? null : (
        <PartsList
          caption="Where it went, item by item"
          captionHidden
          columns={[
            { key: 'aircraft', head: 'Aircraft' },
            { key: 'work', head: 'Work' },
            { key: 'days', head: 'Issued on' },
            { key: 'issued', head: 'Issued', kind: 'figure' },
            { key: 'returned', head: 'Came back', kind: 'figure' },
            { key: 'still', head: 'Still there', kind: 'figure' },
          ]}
          rows={wentTo.map(({ item, issued, returned, stillOn, firstAt, lastAt, despite }) => ({
            key: item.id,
            cells: {
              aircraft: (
                <>
                  <b className={styles.place}>{item.order.aircraft.registration}</b>, serial{' '}
                  <span className={styles.figures}>{item.order.aircraft.serial}</span>
                </>
              ),
              work: (
                <>
                  <SheetLink href={`/desk/orders/${encodeURIComponent(item.order.id)}`}>
                    Order {item.order.number}
                  </SheetLink>
                  , <span className={styles.figures}>{item.position}</span> {item.title}
                </>
              ),
              days:
                dayText(firstAt, timeZone) === dayText(lastAt, timeZone)
                  ? dayText(firstAt, timeZone)
                  : `${dayText(firstAt, timeZone)}, last moved ${dayText(lastAt, timeZone)}`,
              issued: <Figure text={issued} unit={part.unit} />,
              returned: returned === '0' ? null : <Figure text={returned} unit={part.unit} />,
              still: stillOn === '0' ? 'none' : <Figure text={stillOn} unit={part.unit} />,
            },
            ...(despite.length > 0 && {
              note: despite
                .map(
                  (issue) =>
                    `issued ${againstText(issue.despite)} by ${issue.by?.name ?? 'nobody named'}: “${issue.reason}”`,
                )
                .join(' · '),
            }),
          }))}
        />
      )}
      {sameBatch.length === 0 ? null : (
        <p>
          The same batch or serial number came more than once; a recall is about{' '}
          {sameBatch.map(({ id, receivedOn }, index) => (
            <span key={id}>
              {index === 0 ? '' : ', '}
              <SheetLink href={lotHref(id)}>the lot of {calendarDateText(receivedOn)}</SheetLink>
            </span>
          ))}{' '}
          too.
        </p>
      )}
    </section>
  );
}
