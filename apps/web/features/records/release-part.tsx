'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { More } from '../../components/More.tsx';
import type { ReleaseAircraftInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './records.module.css';
import type { OrderToSign, Signing } from './records-documents.ts';
import { ReleaseAircraftDocument } from './records-mutations.ts';
import { outcomeWords } from './records-words.ts';

/** So many stand open; more are the same again, item by item, and fold. */
const OPEN = 3;

/** The end of the visit: what still hinders it, or the one press that records it. */
export function ReleasePart({
  order,
  signing,
  inspector,
}: {
  order: OrderToSign;
  signing: Signing;
  inspector: boolean;
}) {
  const { registration } = order.aircraft;
  const { hindrances, outcome } = signing;
  const release = useDoing(
    async (input: ReleaseAircraftInput) =>
      (await request(ReleaseAircraftDocument, { input })).releaseAircraft,
  );
  return (
    <section className={styles.part} aria-labelledby="release">
      <h2 id="release">Release</h2>
      {hindrances.length > 0 ? (
        <>
          <p className={styles.quiet}>
            {registration} cannot be released yet, as {outcomeWords[outcome]}:
          </p>
          {hindrances.length > OPEN ? (
            <More words={`${hindrances.length} things are in the way`}>
              <Hindrances all={hindrances} />
            </More>
          ) : (
            <Hindrances all={hindrances} />
          )}
        </>
      ) : (
        <>
          <p>
            Every entry is signed. {registration} goes <b>{outcomeWords[outcome]}</b>, as the
            entries say; the entries approve it, not this button.
          </p>
          {release.error === null ? null : (
            <ErrorNote head="Not released">{release.error.message}</ErrorNote>
          )}
          {inspector ? (
            <div data-screen-only="">
              <Button
                kind="primary"
                busy={release.isPending ? 'Recording' : undefined}
                onClick={() => release.mutate({ orderId: order.id, outcome })}
              >
                Release {registration}, {outcomeWords[outcome]}
              </Button>
            </div>
          ) : (
            <p className={styles.quiet}>An inspector releases it.</p>
          )}
        </>
      )}
    </section>
  );
}

function Hindrances({ all }: { all: readonly string[] }) {
  return (
    <ul className={styles.hindrances}>
      {all.map((each) => (
        <li key={each}>{each}</li>
      ))}
    </ul>
  );
}
