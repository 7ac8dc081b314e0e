'use client';

import { useState } from 'react';
import { ButtonLink } from '../../components/Button.tsx';
import { Field } from '../../components/Field.tsx';
import { dayOf } from '../../lib/shop-time.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './books.module.css';

const tables = ['invoices', 'lines', 'tax', 'payments'] as const;

/** What the bookkeeper's own program takes in: one workbook, or a file a table, between two days. */
export function ForTheBookkeeper({ shop }: { shop: Viewer['shop'] }) {
  const today = dayOf(new Date().toISOString(), shop.timeZone);
  const [days, setDays] = useState({ from: `${today.slice(0, 4)}-01-01`, until: today });
  const ready = days.from !== '' && days.from <= days.until;
  const query = new URLSearchParams(days).toString();
  return (
    <section className={styles.actions} aria-label="For the bookkeeper" data-screen-only="">
      <h2 className={styles.head}>For the bookkeeper</h2>
      <div className={styles.fields}>
        <Field
          label="From"
          type="date"
          value={days.from}
          onChange={(event) => setDays({ ...days, from: event.currentTarget.value })}
        />
        <Field
          label="Until"
          type="date"
          value={days.until}
          wrong={ready ? undefined : 'Needed are two days in order.'}
          onChange={(event) => setDays({ ...days, until: event.currentTarget.value })}
        />
      </div>
      {ready ? (
        <div className={styles.ways}>
          <ButtonLink href={`/paper/books.xlsx?${query}`}>Workbook, XLSX</ButtonLink>
          {tables.map((table) => (
            <ButtonLink key={table} href={`/paper/books/${table}.csv?${query}`}>
              {table[0]?.toUpperCase()}
              {table.slice(1)}, CSV
            </ButtonLink>
          ))}
        </div>
      ) : null}
    </section>
  );
}
