'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { partHref } from './addresses.ts';
import { CertificatePart } from './certificate-part.tsx';
import { LotActions } from './lot-actions.tsx';
import { type LotOnSheet, LotSheetDocument } from './lot-documents.ts';
import { LotHistory } from './lot-history.tsx';
import { freeWords, Until } from './lot-list.tsx';
import { LotRecall } from './lot-recall.tsx';
import styles from './stores.module.css';
import { StoresSheets } from './stores-sheets.tsx';

const notes = [
  'What is on an aircraft is as far as the stores know it: issued, and not come back. The records of the aircraft say what was fitted and taken off.',
  'Whether a part is eligible for an aircraft, and how its release certificate is to be read, is for a person who holds the certificate and rating; local rules may ask for more.',
];

/** One lot: what is left of it, its certificate, what happened to it, and where all of it went. */
export function LotSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['lot', id],
    queryFn: async () => (await request(LotSheetDocument, { id })).node,
  });
  const problem = viewer.error ?? error;
  const shop = viewer.data?.shop;
  const lot = data?.__typename === 'Lot' ? data : undefined;
  return (
    <Sheet
      here="stores"
      viewer={viewer.data?.person ?? null}
      title={lot === undefined ? 'A lot' : `${lot.part.title}, ${lot.batch}`}
      notes={notes}
      titleBlock={{
        what: 'A lot: what is left, and where it went',
        cells:
          lot === undefined || shop === undefined
            ? []
            : [
                { label: 'Part number', value: lot.part.number, figures: true },
                { label: 'Batch or serial', value: lot.batch, figures: true },
                { label: 'Date', value: dayText(new Date(), shop.timeZone), figures: true },
                { label: 'Supplier', value: lot.supplier, span: 'half' },
                { label: 'Shop', value: shop.name, span: 'half' },
              ],
      }}
    >
      {lot && viewer.data ? (
        <Drawn lot={lot} viewer={viewer.data} />
      ) : problem ? (
        <NoAnswer
          head="No lot to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
          action={<SheetLink href="/stores">All shelves</SheetLink>}
        />
      ) : data === undefined ? (
        <Loading>Fetching the lot</Loading>
      ) : (
        <ErrorNote head="No lot to show" action={<SheetLink href="/stores">All shelves</SheetLink>}>
          There is no such lot in this shop.
        </ErrorNote>
      )}
    </Sheet>
  );
}

function Drawn({ lot, viewer: { shop, person } }: { lot: LotOnSheet; viewer: Viewer }) {
  const today = dayOf(new Date().toISOString(), shop.timeZone);
  const { part, bin, receivedOn, supplier, shelfLifeUntil, onHand, available } = lot;
  return (
    <div className={styles.sections}>
      <StoresSheets />
      <dl className={styles.facts}>
        <div>
          <dt>Part</dt>
          <dd>
            <SheetLink href={partHref(part.id)}>{part.number}</SheetLink>
          </dd>
        </div>
        <div>
          <dt>Lies in</dt>
          <dd className={styles.figures}>{bin === '' ? 'no place' : bin}</dd>
        </div>
        <div>
          <dt>Left</dt>
          <dd>
            <span className={styles.figures}>{onHand}</span> {part.unit}
            {available === onHand ? null : <span className={styles.second}>{freeWords(lot)}</span>}
          </dd>
        </div>
        <div>
          <dt>Good until</dt>
          <dd>
            {shelfLifeUntil === null ? (
              'does not age'
            ) : (
              <Until date={shelfLifeUntil} today={today} />
            )}
          </dd>
        </div>
        <div>
          <dt>Came</dt>
          <dd>
            {calendarDateText(receivedOn)}, {supplier}
          </dd>
        </div>
      </dl>
      <LotActions lot={lot} today={today} who={person.name} />
      <CertificatePart lot={lot} timeZone={shop.timeZone} />
      <LotRecall lot={lot} timeZone={shop.timeZone} />
      <LotHistory lot={lot} timeZone={shop.timeZone} />
    </div>
  );
}
