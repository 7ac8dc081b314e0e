import { DayDimension } from '../../components/DayDimension.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { FindingCard } from './finding-card.tsx';
import { OfferPart } from './offer-part.tsx';
import styles from './owner.module.css';
import { OwnerFrame } from './owner-frame.tsx';
import { OwnerInvoicePart } from './owner-invoice.tsx';
import { newsScript } from './owner-news.ts';
import type { Offer, OwnerPageData } from './owner-page.ts';
import { progressWords, waitingWords } from './owner-words.ts';

const waitsFirst = (one: Offer, other: Offer) =>
  Number(other.state === 'sent') - Number(one.state === 'sent');

/** The owner's page: how far it is, what waits for them, what was agreed, what was billed. */
export function OwnerSheet({ page, secret }: { page: OwnerPageData; secret: string }) {
  const { shop, aircraft, order, offers, note, you } = page;
  const title = order?.title ?? offers[0]?.title ?? 'Quote';
  const waiting = waitingWords(offers);
  const visits = offers.filter(({ finding }) => finding === null).toSorted(waitsFirst);
  const findings = (order?.findings ?? []).toSorted(
    (one, other) => Number(other.state === 'offered') - Number(one.state === 'offered'),
  );
  const quotes = (
    <section className={styles.part} aria-labelledby="quotes">
      <h2 id="quotes">
        {visits.some(({ state }) => state === 'sent') ? 'The quote' : 'Agreed for the visit'}
      </h2>
      {visits.map((offer) => (
        <OfferPart key={offer.id} offer={offer} page={page} secret={secret} />
      ))}
    </section>
  );
  const asks = visits.some(({ state }) => state === 'sent');
  return (
    <OwnerFrame
      shop={`${shop.name}, ${shop.place}`}
      title={`${aircraft.registration}, ${title}`}
      notes={page.cautions}
      titleBlock={{
        what: order === null ? 'Quote for the owner' : 'Job for the owner',
        cells: [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Type', value: `${aircraft.maker} ${aircraft.name}` },
          ...(order === null
            ? []
            : [{ label: 'Order', value: order.number, figures: true } as const]),
          { label: 'Reads', value: you.name ?? 'nobody who decides', span: 'half' },
          { label: 'Shop', value: shop.name, span: 'half' },
        ],
      }}
    >
      <p id="news" role="status" className={styles.news} data-state={page.state} hidden>
        Something on this sheet is new. <a href={`/owner/${secret}`}>Read it again</a>; what you
        typed and did not send is then gone.
      </p>
      {note === null ? null : <ErrorNote head="Not recorded">{note}</ErrorNote>}
      <section className={styles.progress} aria-label="How far it is">
        {order === null ? null : <p>{progressWords(order, shop.timeZone).join(' ')}</p>}
        <p>{waiting === null ? 'Nothing waits for you.' : <b>{waiting}</b>}</p>
        {order === null || order.promise === null ? null : (
          <DayDimension promise={order.promise} label="When you get it back" />
        )}
      </section>
      {asks ? quotes : null}
      {findings.length === 0 ? null : (
        <section className={styles.part} aria-labelledby="findings">
          <h2 id="findings">What we found</h2>
          {findings.map((finding) => (
            <FindingCard key={finding.number} finding={finding} page={page} secret={secret} />
          ))}
        </section>
      )}
      {asks || visits.length === 0 ? null : quotes}
      {(order?.invoices ?? []).map((invoice) => (
        <OwnerInvoicePart key={invoice.number} invoice={invoice} timeZone={shop.timeZone} />
      ))}
      <script dangerouslySetInnerHTML={{ __html: newsScript }} />
    </OwnerFrame>
  );
}
