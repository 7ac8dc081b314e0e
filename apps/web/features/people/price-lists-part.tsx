'use client';

import { useQuery } from '@tanstack/react-query';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { KindsOfWork } from './kinds-of-work.tsx';
import styles from './people.module.css';
import { type PriceLists, PriceListsDocument } from './price-documents.ts';
import { MarkUpForm, SuppliesForm } from './price-forms.tsx';
import type { ShopSheet } from './shop-documents.ts';

/** Kinds of work, mark-up bands and the rule for shop supplies, each from a day on. */
export function PriceListsPart({ sheet }: { sheet: ShopSheet }) {
  const asked = useQuery({
    queryKey: ['shopSheet', 'priceLists'],
    queryFn: () => request(PriceListsDocument),
  });
  const lists = asked.data;
  return (
    <section className={styles.part} aria-labelledby="price-lists">
      <h2 id="price-lists">What parts and supplies sell for, and kinds of work</h2>
      <p className={styles.second}>
        A list is never changed: a new one counts from its day on, and quotes that were made keep
        what they were made with. A part’s own price stands on its sheet in stores.
      </p>
      {asked.error ? <ErrorNote head="No lists to show">{asked.error.message}</ErrorNote> : null}
      {lists === undefined ? null : (
        <>
          <div className={styles.two}>
            <div>
              <Bands lists={lists.markUpLists} sheet={sheet} />
              <MarkUpForm sheet={sheet} lists={lists.markUpLists} />
            </div>
            <div>
              <Supplies rules={lists.suppliesRules} sheet={sheet} />
              <SuppliesForm sheet={sheet} rules={lists.suppliesRules} />
            </div>
          </div>
          <KindsOfWork kinds={lists.workKinds} sheet={sheet} />
        </>
      )}
    </section>
  );
}

/** From when it counts, and whether that is today. Rows come newest first. */
const since = (
  validFrom: string,
  index: number,
  all: readonly { validFrom: string }[],
  today: string,
) =>
  `${calendarDateText(validFrom)}${
    validFrom > today
      ? ', to come'
      : all.findIndex((each) => each.validFrom <= today) === index
        ? ', counts today'
        : ''
  }`;

function Bands({ lists, sheet }: { lists: PriceLists['markUpLists']; sheet: ShopSheet }) {
  if (lists.length === 0)
    return (
      <p className={styles.second}>
        No mark-up bands yet: a part without a price of its own cannot be sold.
      </p>
    );
  return (
    <PartsList
      caption="Mark-up on what a part cost, where it has no price of its own"
      columns={[
        { key: 'cost', head: 'What one cost' },
        { key: 'percent', head: 'Put on it, %', kind: 'figure' },
      ]}
      rows={lists.flatMap(({ id, validFrom, by, bands }, index) =>
        bands.map(({ costFrom, percent }, band) => ({
          key: `${id} ${costFrom}`,
          ...(band === 0 && {
            note: `list of ${since(validFrom, index, lists, sheet.today)}, by ${by.name}`,
          }),
          cells: {
            cost: `from ${shown(costFrom)} ${sheet.shop.currency}`,
            percent: shown(percent),
          },
        })),
      )}
    />
  );
}

const shown = (decimal: string) =>
  Number(decimal).toLocaleString('en-GB', { minimumFractionDigits: 2, maximumFractionDigits: 4 });

function Supplies({ rules, sheet }: { rules: PriceLists['suppliesRules']; sheet: ShopSheet }) {
  if (rules.length === 0)
    return <p className={styles.second}>No rule for shop supplies yet: each quote says its own.</p>;
  return (
    <PartsList
      caption="Shop supplies"
      columns={[
        { key: 'from', head: 'From' },
        { key: 'percent', head: 'Of the labour, %', kind: 'figure' },
        { key: 'cap', head: `At most, ${sheet.shop.currency}`, kind: 'figure' },
      ]}
      rows={rules.map(({ id, percent, cap, validFrom, by }, index) => ({
        key: id,
        note: `by ${by.name}`,
        cells: {
          from: since(validFrom, index, rules, sheet.today),
          percent: shown(percent),
          cap: cap === null ? 'no cap' : moneyText(BigInt(cap), sheet.shop.currency),
        },
      }))}
    />
  );
}
