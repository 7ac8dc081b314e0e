'use client';

import { useQuery } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { AskedAgainDocument } from './quote-documents.ts';
import styles from './quote-sheet.module.css';

/**
 * The model and what it was asked are kept with each revision: asked the same again it has to give the same hours, however
 * much the shop has learned since.
 */
export function AskedAgain({ quoteId, timeZone }: { quoteId: string; timeZone: string }) {
  const again = useQuery({
    queryKey: ['quote', quoteId, 'asked again'],
    queryFn: async () => (await request(AskedAgainDocument, { id: quoteId })).node,
    enabled: false,
  });
  const found = again.data?.__typename === 'Quote' ? again.data.revisions : null;
  return (
    <section className={styles.part} data-screen-only="" aria-label="Asked again">
      <p className={styles.quiet}>
        Each revision keeps the model that made its hours and what it was asked.
      </p>
      {found === null ? (
        <div className={styles.ways}>
          <Button
            onClick={() => void again.refetch()}
            busy={again.isFetching ? 'Asking' : undefined}
          >
            Ask the model again
          </Button>
        </div>
      ) : (
        <ul className={styles.answers} aria-live="polite">
          {found.map(({ revision, recomputed }) => (
            <li key={revision} className={styles.answer}>
              {recomputed === null ? (
                <p>Revision {revision} names no model, or sells no work by the hour.</p>
              ) : (
                <p>
                  Revision {revision}, by the model of{' '}
                  {dayAndTimeText(recomputed.fittedAt, timeZone)}: {recomputed.sentence}
                </p>
              )}
            </li>
          ))}
        </ul>
      )}
      {again.error ? <ErrorNote head="Not asked">{again.error.message}</ErrorNote> : null}
    </section>
  );
}
