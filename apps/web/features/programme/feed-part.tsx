'use client';

import { useMutation } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import styles from './programme.module.css';
import { MakeDueFeedDocument } from './programme-documents.ts';

/** An address that a calendar program reads; told once. */
export function FeedPart({ aircraftId }: { aircraftId: string }) {
  const make = useMutation({
    mutationFn: async () => {
      const answer = (await request(MakeDueFeedDocument, { aircraftId })).makeDueFeed;
      if (answer.__typename === 'Refusal') throw new Error(answer.message);
      return new URL(answer.path, window.location.origin).href;
    },
  });
  return (
    <div data-screen-only="" className={styles.form}>
      {make.data === undefined ? (
        <div className={styles.row}>
          <Button
            kind="plain"
            busy={make.isPending ? 'Making' : undefined}
            onClick={() => make.mutate()}
          >
            Make an address for calendars
          </Button>
        </div>
      ) : (
        <p aria-live="polite">
          Give this to a calendar program. Whoever has it can read what falls due; a new one ends
          it. It is shown once: <span className={styles.hash}>{make.data}</span>
        </p>
      )}
      {make.error === null ? null : (
        <ErrorNote head="No address made">{make.error.message}</ErrorNote>
      )}
    </div>
  );
}
