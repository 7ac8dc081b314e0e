'use client';

import { Button } from '../../components/Button.tsx';
import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { PartNotes } from './part-notes.tsx';
import { byPlace, shelfLife, takeFirst } from './shelves.ts';
import styles from './stores.module.css';
import type { Lot } from './stores-documents.ts';

/** What lies in stores, as one walks past it. */
export function LotList({
  caption,
  captionHidden = false,
  lots,
  today,
  notes,
  onIssue,
}: {
  caption: string;
  captionHidden?: boolean;
  lots: readonly Lot[];
  /** The shop's date. */
  today: string;
  /** Where notes on the parts are shown, and whether they may be written. Left out: they are not. */
  notes?: { timeZone: string; writes: boolean };
  /** Left out: nothing is taken from these. */
  onIssue?: (lot: Lot) => void;
}) {
  const first = takeFirst(lots, today);
  const sorted = lots.toSorted(byPlace);
  return (
    <PartsList
      caption={caption}
      captionHidden={captionHidden}
      columns={[
        { key: 'part', head: 'Part' },
        { key: 'lot', head: 'Where, batch or serial' },
        { key: 'until', head: 'Good until' },
        { key: 'left', head: 'Left', kind: 'figure' },
      ]}
      rows={sorted.map((lot, index) => ({
        key: lot.id,
        cells: {
          part: lot.part.title,
          lot: (
            <>
              <b className={styles.place}>{lot.bin === '' ? 'no place' : lot.bin}</b> ·{' '}
              <span className={styles.figures}>{lot.batch}</span>
              {lot.tag === '' ? ', without a certificate' : `, certificate ${lot.tag}`}
            </>
          ),
          ...(lot.shelfLifeUntil === null
            ? {}
            : { until: <Until date={lot.shelfLifeUntil} today={today} /> }),
          left: (
            <span className={styles.left}>
              <Figure text={lot.onHand} unit={lot.part.unit} />
              {onIssue !== undefined && shelfLife(lot.shelfLifeUntil, today).stands !== 'past' ? (
                <span data-screen-only="">
                  <Button
                    aria-label={`Issue ${lot.part.title}, batch ${lot.batch}`}
                    onClick={() => onIssue(lot)}
                  >
                    Issue
                  </Button>
                </span>
              ) : null}
            </span>
          ),
        },
        note: (
          <>
            {[
              lot.part.number,
              `${lot.supplier}, ${calendarDateText(lot.receivedOn)}`,
              ...(first.has(lot.id) ? ['take this lot first'] : []),
            ].join(' · ')}
            {/* Once a part, at the first of its lots. */}
            {notes !== undefined &&
            sorted.findIndex(({ part }) => part.id === lot.part.id) === index ? (
              <PartNotes part={lot.part} {...notes} />
            ) : null}
          </>
        ),
      }))}
    />
  );
}

/** The last day; in ochre once it is near or over. */
function Until({ date, today }: { date: string; today: string }) {
  const { stands, days } = shelfLife(date, today);
  if (stands === 'good') return `until ${calendarDateText(date)}`;
  return (
    <span className={styles.ochre}>
      until {calendarDateText(date)}
      {stands === 'past'
        ? ': past its date, not to be fitted'
        : days === 0
          ? ', its last day'
          : `, ${days} ${days === 1 ? 'day' : 'days'} left`}
    </span>
  );
}
