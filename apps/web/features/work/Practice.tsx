'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Empty } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { hoursText } from '../../lib/figures/hours.ts';
import { shopClock } from '../../lib/shop-clock.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { PracticeDocument } from './forgotten-documents.ts';
import styles from './practice.module.css';

/** Hours as a record of practice: on one's own clock, of them under supervision, and overseen on others' clocks. */
export function Practice({ timeZone }: { timeZone: string }) {
  const today = dayOf(new Date(shopClock.now()).toISOString(), timeZone);
  const [from, setFrom] = useState(`${today.slice(0, 8)}01`);
  const [to, setTo] = useState(today);
  const complete = from !== '' && to !== '';
  const asked = useQuery({
    queryKey: ['practice', from, to],
    queryFn: () => request(PracticeDocument, { from, to }),
    enabled: complete,
  });
  const answer = asked.data?.practiceRecord;
  const refused = answer?.__typename === 'Refusal' ? answer : undefined;
  const problem = asked.error ?? refused;
  const people = answer?.__typename === 'PracticeRecord' ? answer.people : undefined;
  return (
    <div className={styles.practice}>
      <div className={styles.days}>
        <Field
          label="From"
          type="date"
          value={from}
          onChange={(event) => setFrom(event.currentTarget.value)}
        />
        <Field
          label="To"
          type="date"
          value={to}
          wrong={complete ? undefined : 'A first and a last day are needed.'}
          onChange={(event) => setTo(event.currentTarget.value)}
        />
      </div>
      {problem ? (
        <ErrorNote head="No hours to show">{problem.message}</ErrorNote>
      ) : people?.length === 0 ? (
        <Empty draws="list">Nothing was clocked in these days.</Empty>
      ) : people === undefined ? null : (
        <PartsList
          caption="Hours by person"
          columns={[
            { key: 'name', head: 'Who' },
            { key: 'worked', head: 'Worked, h', kind: 'figure' },
            { key: 'supervised', head: 'Of it under supervision, h', kind: 'figure' },
            { key: 'overseen', head: 'Overseen, h', kind: 'figure' },
          ]}
          rows={people.map(({ name, worked, supervised, overseen }) => ({
            key: name,
            cells: {
              name,
              worked: hoursText(worked),
              supervised: hoursText(supervised),
              overseen: hoursText(overseen),
            },
          }))}
        />
      )}
      <p className={styles.second}>
        A stretch counts to the day on which it began. Overseen hours are on the clock of whoever
        was supervised, and are billed there once.
      </p>
    </div>
  );
}
