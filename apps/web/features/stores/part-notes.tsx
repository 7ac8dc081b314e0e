'use client';

import { useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { LongField } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { clientId } from '../../lib/client-id.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useLearned } from '../work/use-learned.ts';
import styles from './stores.module.css';
import type { LotWithNotes } from './stores-documents.ts';

/** What is to be known of a part before it is fitted: that it supersedes another, and what differs. */
export function PartNotes({
  part,
  timeZone,
  writes,
}: {
  part: LotWithNotes['part'];
  timeZone: string;
  /** Whether whoever reads may write and judge notes. */
  writes: boolean;
}) {
  const queries = useQueryClient();
  const [words, setWords] = useState('');
  // Kept until it is through, so that a second try is the same note.
  const [id, setId] = useState(clientId);
  const learning = useLearned(() => {
    setWords('');
    setId(clientId());
    void queries.invalidateQueries({ queryKey: ['shelf'] });
  });
  const hold = part.learned.filter(({ stillTrue }) => stillTrue);
  const keep = (event: FormEvent) => {
    event.preventDefault();
    learning.mutate({ learn: { partId: part.id, words, clientEventId: id } });
  };
  return (
    <>
      {hold.length === 0 ? null : (
        <ul className={styles.partNotes} aria-label={`To know of ${part.title}`}>
          {hold.map((note) => (
            <li key={note.id}>
              {note.words}{' '}
              <span className={styles.said}>
                {note.by.name}, {dayText(String(note.at), timeZone)}
              </span>{' '}
              {writes ? (
                <span data-screen-only="">
                  <Button
                    kind="plain"
                    onClick={() =>
                      learning.mutate({ judge: { noteId: note.id, stillTrue: false } })
                    }
                  >
                    No longer true<span className="spoken">: {note.words}</span>
                  </Button>
                </span>
              ) : null}
            </li>
          ))}
        </ul>
      )}
      {learning.error === null ? null : (
        <ErrorNote head="Not noted">{learning.error.message}</ErrorNote>
      )}
      {writes ? (
        <div data-screen-only="">
          <More words={`A note on ${part.number}`}>
            <form className={styles.partNote} onSubmit={keep}>
              <LongField
                label="What to know of this part"
                hint="Such as: it supersedes another, and what differs in fitting it."
                rows={2}
                maxLength={500}
                required
                value={words}
                onChange={(event) => setWords(event.currentTarget.value)}
              />
              <Button type="submit" busy={learning.isPending ? 'Keeping' : undefined}>
                Keep the note
              </Button>
            </form>
          </More>
        </div>
      ) : null}
    </>
  );
}
