'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Figure } from '../../components/Figure.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { unitPriceText } from '../quoting/quote-figures.ts';
import { lotHref } from './addresses.ts';
import { freeWords, Until } from './lot-list.tsx';
import { type PartOnSheet, PartSheetDocument } from './part-documents.ts';
import { PartForm } from './part-form.tsx';
import { PartPrices } from './part-prices.tsx';
import { StandInsPart } from './stand-ins-part.tsx';
import styles from './stores.module.css';
import { StoresSheets } from './stores-sheets.tsx';

const notes = [
  'Whether one part may be fitted instead of another on an aircraft is in the maker’s current data, and decided by a person who holds the certificate and rating; this sheet only keeps what was found there.',
  'What is free is on the shelves, kept for nobody, and within its shelf life.',
];

/** One part: what is there of it, what stands in for it, what it is sold and ordered by, and all of its lots. */
export function PartSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['part', id],
    queryFn: async () => (await request(PartSheetDocument, { id })).node,
  });
  const problem = viewer.error ?? error;
  const shop = viewer.data?.shop;
  const part = data?.__typename === 'Part' ? data : undefined;
  return (
    <Sheet
      here="stores"
      viewer={viewer.data?.person ?? null}
      title={part === undefined ? 'A part' : `${part.title}, ${part.number}`}
      notes={notes}
      titleBlock={{
        what: 'A part: what is there, and what stands in for it',
        cells:
          part === undefined || shop === undefined
            ? []
            : [
                { label: 'Part number', value: part.number, figures: true },
                { label: 'Free', value: `${part.free} ${part.unit}`, figures: true },
                { label: 'Date', value: dayText(new Date(), shop.timeZone), figures: true },
                { label: 'Shop', value: shop.name, span: 'whole' },
              ],
      }}
    >
      {part && viewer.data ? (
        <Drawn part={part} viewer={viewer.data} />
      ) : problem ? (
        <NoAnswer
          head="No part to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
          action={<SheetLink href="/stores">All shelves</SheetLink>}
        />
      ) : data === undefined ? (
        <Loading>Fetching the part</Loading>
      ) : (
        <ErrorNote
          head="No part to show"
          action={<SheetLink href="/stores">All shelves</SheetLink>}
        >
          There is no such part in this shop.
        </ErrorNote>
      )}
    </Sheet>
  );
}

function Drawn({ part, viewer: { shop, person } }: { part: PartOnSheet; viewer: Viewer }) {
  const [changing, setChanging] = useState(false);
  const [said, setSaid] = useState('');
  const is = (...roles: typeof person.roles) => roles.some((role) => person.roles.includes(role));
  const { unit, unitPrice, coreCharge, reorderPoint, onHand, free, shortage } = part;
  return (
    <div className={styles.sections}>
      <StoresSheets />
      {shortage === null ? null : <p className={styles.said}>{shortage}</p>}
      <dl className={styles.facts}>
        <div>
          <dt>On the shelves</dt>
          <dd>
            <span className={styles.figures}>{onHand}</span> {unit}
            {free === onHand ? null : (
              <span className={styles.second}>
                {free} free and within {free === '1' ? 'its' : 'their'} date
              </span>
            )}
          </dd>
        </div>
        <div>
          <dt>Sold at</dt>
          <dd>
            {unitPrice === null ? (
              'no price yet'
            ) : (
              <>
                <span className={styles.figures}>{unitPriceText(unitPrice)}</span> {shop.currency} a{' '}
                {unit}
              </>
            )}
            <span className={styles.second}>{part.pricedBy}</span>
          </dd>
        </div>
        <div>
          <dt>Core charge</dt>
          <dd>
            {coreCharge === null ? (
              'none'
            ) : (
              <>
                <span className={styles.figures}>
                  {moneyText(BigInt(coreCharge), shop.currency)}
                </span>{' '}
                {shop.currency}
              </>
            )}
          </dd>
        </div>
        <div>
          <dt>Order again below</dt>
          <dd>{reorderPoint === null ? 'nobody watches it' : `${reorderPoint} ${unit}`}</dd>
        </div>
      </dl>
      {changing ? (
        <PartForm
          part={part}
          currency={shop.currency}
          onDone={(words) => {
            setSaid(words);
            setChanging(false);
          }}
          onLeave={() => setChanging(false)}
        />
      ) : is('front_desk', 'inspector', 'manager') ? (
        <div className={styles.ways} data-screen-only="">
          <Button onClick={() => setChanging(true)}>Change what it is sold and ordered by</Button>
        </div>
      ) : null}
      <p role="status" className={said === '' ? 'spoken' : styles.said}>
        {said}
      </p>
      <PartPrices part={part} currency={shop.currency} timeZone={shop.timeZone} />
      <StandInsPart part={part} timeZone={shop.timeZone} judges={is('inspector', 'manager')} />
      <PartLots part={part} today={dayOf(new Date().toISOString(), shop.timeZone)} />
    </div>
  );
}

function PartLots({ part, today }: { part: PartOnSheet; today: string }) {
  const lots = part.lots.edges.map(({ node }) => node);
  if (lots.length === 0) return <p className={styles.second}>No lot of it was ever received.</p>;
  return (
    <>
      <PartsList
        caption="Its lots, the newest first"
        columns={[
          { key: 'lot', head: 'Batch or serial' },
          { key: 'where', head: 'Where' },
          { key: 'until', head: 'Good until' },
          { key: 'left', head: 'Left', kind: 'figure' },
        ]}
        rows={lots.map((lot) => ({
          key: lot.id,
          cells: {
            lot: (
              <SheetLink className={styles.figures} href={lotHref(lot.id)}>
                {lot.batch}
              </SheetLink>
            ),
            where: lot.bin === '' ? 'no place' : <b className={styles.place}>{lot.bin}</b>,
            ...(lot.shelfLifeUntil !== null && {
              until: <Until date={lot.shelfLifeUntil} today={today} />,
            }),
            left: (
              <span>
                <Figure text={lot.onHand} unit={part.unit} />
                {lot.available === lot.onHand ? null : (
                  <span className={styles.second}>{freeWords(lot)}</span>
                )}
              </span>
            ),
          },
          note: `${lot.supplier}, ${calendarDateText(lot.receivedOn)}${lot.hasTrace ? '' : ' · without a certificate'}`,
        }))}
      />
      {part.lots.pageInfo.hasNextPage ? (
        <p className={styles.second}>The newest 50 are shown.</p>
      ) : null}
    </>
  );
}
