'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { graphql } from '../../graphql/document.ts';
import { request } from '../../graphql/request.ts';
import { clockText } from '../../lib/figures/hours.ts';
import { dayOf } from '../../lib/shop-time.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './books.module.css';

const OurCostHoursDocument = graphql(`
  query OurCostHours($from: Date!, $until: Date!) {
    ourCostHours(from: $from, until: $until) {
      kind
      seconds
      items
    }
  }
`);

const words = {
  rework: 'Rework: our earlier work put right',
  training: 'Training',
  shop: 'For the shop itself',
} as const;

/** What was clocked between two days and is nobody's to pay, by kind. The manager's. */
export function OurCostHours({ shop }: { shop: Viewer['shop'] }) {
  const today = dayOf(new Date().toISOString(), shop.timeZone);
  const [days, setDays] = useState({ from: `${today.slice(0, 4)}-01-01`, until: today });
  const ready = days.from !== '' && days.until !== '' && days.from <= days.until;
  const asked = useQuery({
    queryKey: ['ourCostHours', days],
    queryFn: async () => (await request(OurCostHoursDocument, days)).ourCostHours,
    enabled: ready,
  });
  const problem = asked.error?.message ?? null;
  const rows = asked.data ?? [];
  return (
    <section className={styles.list} aria-label="At our own cost">
      <h2 className={styles.head}>At our own cost</h2>
      <div className={styles.fields} data-screen-only="">
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
      {problem === null ? null : <ErrorNote head="No hours to show">{problem}</ErrorNote>}
      {rows.length > 0 ? (
        <PartsList
          caption={`Clocked and not billed, ${days.from} to ${days.until}`}
          columns={[
            { key: 'kind', head: 'Why' },
            { key: 'items', head: 'Items', kind: 'figure' },
            { key: 'hours', head: 'Hours', kind: 'figure' },
          ]}
          rows={rows.map(({ kind, items, seconds }) => ({
            key: kind,
            cells: { kind: words[kind], items, hours: <Figure text={clockText(seconds)} /> },
          }))}
        />
      ) : problem === null && asked.isSuccess ? (
        <p className={styles.second}>Nothing was clocked at our own cost in these days.</p>
      ) : null}
    </section>
  );
}
