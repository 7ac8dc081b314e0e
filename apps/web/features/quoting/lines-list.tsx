'use client';

import { Balloon } from '../../components/Balloon.tsx';
import { Dimension, type Estimate } from '../../components/Dimension.tsx';
import { Figure, Money } from '../../components/Figure.tsx';
import { PartsList, type PartsRow } from '../../components/PartsList.tsx';
import { hoursText } from '../../lib/figures/hours.ts';
import { moneyText, roundMoneyText } from '../../lib/figures/money.ts';
import { commonScale, type Scale } from '../../lib/figures/quantity.ts';
import styles from './lines-list.module.css';
import { type Place, wordsOfZone } from './places.ts';
import { chainOf, type LineView } from './quote-figures.ts';

const columns = [
  { key: 'item', head: 'Item' },
  { key: 'hours', head: 'Hours, or parts', kind: 'dimension' as const },
  { key: 'price', head: 'Price', kind: 'figure' as const },
];

/**
 * The lines of a quote as a parts list. A balloon is a place on the aircraft, the same number as on
 * the drawing. The tasks of a flat price are folded into its row, by place.
 */
export function LinesList({
  lines,
  places,
  currency,
  tax,
  likely,
  hours,
}: {
  lines: readonly LineView[];
  places: readonly Place<LineView>[];
  currency: string;
  /** On the likely amount. */
  tax: bigint;
  likely: bigint;
  /** Of all the work together. */
  hours: Estimate;
}) {
  const byTime = lines.filter(({ kind }) => kind === 'task');
  // Beside other work the hours under a flat price have no figure of their own.
  const onlyFlat = byTime.length === 0;
  const scale = commonScale(onlyFlat ? [hours.p90] : byTime.map((line) => line.hours?.p90 ?? 0));
  const placeOf = (line: LineView) => places.find(({ items }) => items.includes(line));
  const rows = lines
    .filter(({ kind }) => kind !== 'under_flat')
    .map((line): PartsRow => {
      const place = placeOf(line);
      return {
        key: line.key,
        ...(place !== undefined && { balloon: place.number }),
        cells: {
          item: line.title,
          hours:
            line.kind === 'flat' && onlyFlat ? (
              <Dimension estimate={hours} unit="h" scale={scale} />
            ) : (
              // A part takes no hours of its own: how many of it stands where they would.
              (line.note ?? hoursOf(line, scale))
            ),
          price: priceOf(line, currency),
        },
        note:
          line.kind === 'flat' ? (
            <UnderFlat places={places} lines={lines} />
          ) : (
            noteOf(line, currency)
          ),
      };
    });
  return (
    <PartsList
      caption={`What is offered, prices in ${currency}, net`}
      columns={columns}
      rows={rows}
      foot={[
        {
          key: 'tax',
          cells: {
            item: 'Tax on the likely amount',
            price: <Money minor={tax} currency={currency} />,
          },
        },
        {
          key: 'gross',
          cells: {
            item: 'Likely, with tax',
            price: <Money minor={likely + tax} currency={currency} />,
          },
        },
      ]}
    />
  );
}

function hoursOf(line: LineView, scale: Scale) {
  if (line.kind !== 'task' || line.hours === null) return undefined;
  return <Dimension estimate={line.hours} unit="h" scale={scale} reasons={chainOf(line.because)} />;
}

/** How it is sold, and by what it was priced. */
function noteOf(line: LineView, currency: string) {
  const sold = line.kind === 'task' ? soldWords(line, currency) : null;
  const opening = line.because
    .filter(({ kind }) => kind === 'opening')
    .map(({ sentence }) => sentence)
    .join(' ');
  const words = [sold === null ? '' : `${sold}.`, line.pricedBy ?? '', opening].filter(
    (each) => each !== '',
  );
  if (words.length === 0) return undefined;
  return opening === '' && line.pricedBy === null ? sold : words.join(' ');
}

/** How a task is sold. */
function soldWords({ pricing, limit }: LineView, currency: string): string {
  if (pricing === 'fixed') return 'at a fixed price';
  if (limit === null) return 'by time and materials';
  return `by time and materials, not to exceed ${moneyText(limit, currency)}: the shop carries the rest`;
}

/** To the cent where it is firm; an estimate to the cent would claim more than it knows. */
function priceOf({ amounts }: LineView, currency: string) {
  if (amounts.low === amounts.high) return <Money minor={amounts.likely} currency={currency} />;
  return <Figure text={roundMoneyText(amounts.likely, currency)} places={2} />;
}

/** Everything that a flat price covers: its places at once, its tasks on asking. */
function UnderFlat({
  places,
  lines,
}: {
  places: readonly Place<LineView>[];
  lines: readonly LineView[];
}) {
  const count = lines.filter(({ kind }) => kind === 'under_flat').length;
  const covered = places
    .map((place) => ({ ...place, items: place.items.filter(({ kind }) => kind === 'under_flat') }))
    .filter(({ items }) => items.length > 0);
  return (
    <>
      <ul className={styles.covered} aria-label="Places that it covers">
        {covered.map(({ number, zone, items }) => (
          <li key={zone}>
            <Balloon number={number} /> {wordsOfZone(zone)}, {items.length}
          </li>
        ))}
      </ul>
      <details className={styles.flat}>
        <summary>
          flat price for {count} {count === 1 ? 'task' : 'tasks'}
          <span data-screen-only="">: show {count === 1 ? 'it' : 'them'}</span>
        </summary>
        <ul className={styles.places}>
          {covered.map(({ number, zone, items }) => (
            <li key={zone}>
              <span className={styles.place}>
                <Balloon number={number} /> {wordsOfZone(zone)}
              </span>
              <ul className={styles.tasks}>
                {items.map((line) => (
                  <li key={line.key}>
                    <span>{line.title}</span>
                    <Figure text={hoursText(line.hours?.p50 ?? 0)} unit="h" />
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
