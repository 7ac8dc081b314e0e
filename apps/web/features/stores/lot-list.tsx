'use client';

import { Button } from '../../components/Button.tsx';
import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { lotHref, partHref } from './addresses.ts';
import { PartNotes } from './part-notes.tsx';
import { byPlace, shelfLife, takeFirst } from './shelves.ts';
import styles from './stores.module.css';
import type { Lot, LotWithNotes } from './stores-documents.ts';

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
  lots: readonly LotWithNotes[];
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
          part: <SheetLink href={partHref(lot.part.id)}>{lot.part.title}</SheetLink>,
          lot: (
            <>
              <b className={styles.place}>{lot.bin === '' ? 'no place' : lot.bin}</b> ·{' '}
              <SheetLink className={styles.figures} href={lotHref(lot.id)}>
                {lot.batch}
              </SheetLink>
              {lot.tag !== '' ? (
                `, certificate ${lot.tag}`
              ) : lot.hasTrace ? (
                ', certificate kept'
              ) : (
                <span className={styles.ochre}>, without a certificate</span>
              )}
            </>
          ),
          ...(lot.shelfLifeUntil === null
            ? {}
            : { until: <Until date={lot.shelfLifeUntil} today={today} /> }),
          left: (
            <span className={styles.left}>
              <span>
                <Figure text={lot.onHand} unit={lot.part.unit} />
                {lot.available === lot.onHand ? null : (
                  <span className={styles.second}>{freeWords(lot)}</span>
                )}
              </span>
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

/** What is left of a lot for anybody, where some of it is reserved. */
export function freeWords({ available, part }: Pick<Lot, 'available' | 'part'>): string {
  const short = available.startsWith('-');
  return short
    ? `${available.slice(1)} ${part.unit} short of what is reserved`
    : `${available} free, the rest reserved`;
}

/** The last day; in ochre once it is near or over. */
export function Until({ date, today }: { date: string; today: string }) {
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
