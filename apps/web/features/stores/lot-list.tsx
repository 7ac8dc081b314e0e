'use client';

import { Button } from '../../components/Button.tsx';
import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { byPlace, shelfLife, takeFirst } from './shelves.ts';
import styles from './stores.module.css';
import type { Lot } from './stores-documents.ts';

/** What lies in stores, as one walks past it. */
export function LotList({
  caption,
  captionHidden = false,
  lots,
  today,
  onIssue,
}: {
  caption: string;
  captionHidden?: boolean;
  lots: readonly Lot[];
  /** The shop's date. */
  today: string;
  /** Left out: nothing is taken from these. */
  onIssue?: (lot: Lot) => void;
}) {
  const first = takeFirst(lots, today);
  return (
    <PartsList
      caption={caption}
      captionHidden={captionHidden}
      columns={[
        { key: 'part', head: 'Part' },
        { key: 'where', head: 'Where' },
        { key: 'lot', head: 'Batch or serial' },
        { key: 'until', head: 'Good until' },
        { key: 'left', head: 'Left', kind: 'figure' },
        ...(onIssue === undefined ? [] : [{ key: 'issue', head: 'Take' }]),
      ]}
      rows={lots.toSorted(byPlace).map((lot) => ({
        key: lot.id,
        cells: {
          part: lot.part.title,
          where: <b className={styles.place}>{lot.bin === '' ? 'not said' : lot.bin}</b>,
          lot: (
            <>
              <span className={styles.figures}>{lot.batch}</span>
              <span className={styles.second}>
                {lot.tag === '' ? 'without a release certificate' : `certificate ${lot.tag}`}
              </span>
            </>
          ),
          until: <Until lot={lot} today={today} first={first.has(lot.id)} />,
          left: <Figure text={lot.onHand} unit={lot.part.unit} />,
          ...(onIssue !== undefined && shelfLife(lot.shelfLifeUntil, today).stands !== 'past'
            ? {
                issue: (
                  <Button
                    aria-label={`Issue ${lot.part.title}, batch ${lot.batch}`}
                    onClick={() => onIssue(lot)}
                  >
                    Issue
                  </Button>
                ),
              }
            : {}),
        },
        note: `${lot.part.number} · ${lot.supplier}, ${calendarDateText(lot.receivedOn)}`,
      }))}
    />
  );
}

function Until({ lot, today, first }: { lot: Lot; today: string; first: boolean }) {
  const { stands, days } = shelfLife(lot.shelfLifeUntil, today);
  const date = lot.shelfLifeUntil === null ? '' : calendarDateText(lot.shelfLifeUntil);
  return (
    <>
      {stands === 'ageless' ? (
        <span className={styles.second}>does not age</span>
      ) : stands === 'good' ? (
        date
      ) : (
        <span className={styles.ochre}>
          {date}
          {stands === 'past'
            ? ', past its date: not to be fitted'
            : days === 0
              ? ', its last day'
              : `, ${days} ${days === 1 ? 'day' : 'days'} left`}
        </span>
      )}
      {first ? <span className={styles.second}>take this lot first</span> : null}
    </>
  );
}
