'use client';

import { useQuery } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import styles from './programme.module.css';
import { AircraftDueDocument } from './programme-documents.ts';
import { dueWords, leftWords, stateWords } from './programme-words.ts';

/** Before an aircraft is quoted: what falls due on it by then. Nothing, where nothing presses. */
export function DueAhead({ aircraftId }: { aircraftId: string }) {
  const { data } = useQuery({
    queryKey: ['aircraftDue', aircraftId],
    queryFn: async () => {
      const { node } = await request(AircraftDueDocument, { id: aircraftId });
      return node?.__typename === 'Aircraft' ? node : null;
    },
  });
  if (!data) return null;
  const pressing = data.due.lines.filter(({ state }) => state !== 'ok');
  return (
    <section className={styles.ahead} aria-label={`What falls due on ${data.registration}`}>
      {pressing.length + data.deferred.length === 0 ? null : (
        <ul>
          {pressing.map((line) => (
            <li key={line.itemId}>
              <span>{line.title}</span>{' '}
              <span className={styles.state} data-state={line.state ?? 'unknown'}>
                {line.state == null ? 'cannot be reckoned' : stateWords[line.state]}
              </span>{' '}
              <span className={styles.figures}>
                {dueWords(line)}
                {line.state === 'due_soon' && leftWords(line) !== ''
                  ? `, ${leftWords(line)} left`
                  : ''}
              </span>
            </li>
          ))}
          {data.deferred.map(({ findingId, title, because, state }) => (
            <li key={findingId}>
              <span>{title}</span>{' '}
              <span className={styles.state} data-state={state ?? 'unknown'}>
                {because.charAt(0).toLowerCase() + because.slice(1)}
              </span>
            </li>
          ))}
        </ul>
      )}
      <p>
        <a href={`/records/aircraft/${data.id}`}>
          {pressing.length + data.deferred.length === 0
            ? `Nothing presses on ${data.registration}: all that falls due`
            : `All that falls due on ${data.registration}`}
        </a>
      </p>
    </section>
  );
}
