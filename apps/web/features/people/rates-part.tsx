'use client';

import { PartsList } from '../../components/PartsList.tsx';
import { calendarDateText } from '../../lib/figures/dates.ts';
import styles from './people.module.css';
import { changeText } from './people-words.ts';
import { LabourRateForm, TaxRateForm } from './rate-forms.tsx';
import type { ShopSheet } from './shop-documents.ts';

/** Which row of a kind counts today: the newest that has begun. Rows come newest first. */
function current<T extends { rate: { id: string; validFrom: string } }>(
  rows: readonly T[],
  kindOf: (row: T) => string,
  today: string,
): Set<string> {
  const seen = new Map<string, string>();
  for (const row of rows)
    if (row.rate.validFrom <= today && !seen.has(kindOf(row))) seen.set(kindOf(row), row.rate.id);
  return new Set(seen.values());
}

const shown = (rate: string) => Number(rate).toLocaleString('en-GB', { minimumFractionDigits: 2 });

/** What an hour costs and what is taxed how, each from a day on. */
export function RatesPart({ sheet }: { sheet: ShopSheet }) {
  const { labourRates, taxRates, today } = sheet;
  const { currency, timeZone } = sheet.shop;
  const labourNow = current(labourRates, ({ rate }) => rate.kind, today);
  const taxNow = current(taxRates, ({ rate }) => rate.category, today);
  const when = (id: string, validFrom: string, now: ReadonlySet<string>) =>
    `${calendarDateText(validFrom)}${now.has(id) ? ', counts today' : validFrom > today ? ', to come' : ''}`;
  return (
    <section className={styles.part} aria-labelledby="rates">
      <h2 id="rates">What an hour costs, and what is taxed</h2>
      <div className={styles.two}>
        <div>
          <PartsList
            caption={`An hour, in ${currency}, before tax`}
            columns={[
              { key: 'kind', head: 'Whose' },
              { key: 'from', head: 'From' },
              { key: 'rate', head: 'Rate', kind: 'figure' },
            ]}
            rows={labourRates.map(({ rate, lastChange }) => ({
              key: rate.id,
              note: changeText(lastChange, timeZone),
              cells: {
                kind: rate.kind,
                from: when(rate.id, rate.validFrom, labourNow),
                rate: shown(rate.rate),
              },
            }))}
          />
          <LabourRateForm sheet={sheet} />
        </div>
        <div>
          <PartsList
            caption="Tax, per cent"
            columns={[
              { key: 'category', head: 'On' },
              { key: 'from', head: 'From' },
              { key: 'rate', head: 'Rate', kind: 'figure' },
            ]}
            rows={taxRates.map(({ rate, lastChange }) => ({
              key: rate.id,
              note: changeText(lastChange, timeZone),
              cells: {
                category: `${rate.category} (${rate.code})`,
                from: when(rate.id, rate.validFrom, taxNow),
                rate: shown(rate.rate),
              },
            }))}
          />
          <TaxRateForm sheet={sheet} />
        </div>
      </div>
    </section>
  );
}
