import { PartsList } from '../../components/PartsList.tsx';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { unitPriceText } from '../quoting/quote-figures.ts';
import type { PartOnSheet } from './part-documents.ts';

/** What a part sold for and will sell for, from which day on; nothing where it has had one price only. */
export function PartPrices({
  part,
  currency,
  timeZone,
}: {
  part: PartOnSheet;
  currency: string;
  timeZone: string;
}) {
  if (part.prices.length === 0) return null;
  return (
    <PartsList
      caption={`Its prices, ${currency} a ${part.unit}`}
      columns={[
        { key: 'from', head: 'From' },
        { key: 'price', head: 'Price', kind: 'figure' },
      ]}
      rows={part.prices.map(({ id, unitPrice, validFrom, at, by }) => ({
        key: id,
        note: `${by.name}, ${dayText(at, timeZone)}`,
        cells: {
          from: calendarDateText(validFrom),
          price: unitPrice === null ? 'by the bands' : unitPriceText(unitPrice),
        },
      }))}
    />
  );
}
