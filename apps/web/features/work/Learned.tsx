'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Photos, photoOfShop } from '../../components/Photos.tsx';
import type { LearnedFragment } from '../../graphql/generated/graphql.ts';
import { dayText } from '../../lib/figures/dates.ts';
import styles from './bench.module.css';
import { useLearned } from './use-learned.ts';

/** What whoever did this before wants the next to know: said before the work, and judged by who did it again. */
export function Learned({
  notes,
  timeZone,
}: {
  notes: readonly LearnedFragment[];
  timeZone: string;
}) {
  const hold = notes.filter(({ stillTrue }) => stillTrue);
  const past = notes.filter(({ stillTrue }) => !stillTrue);
  if (notes.length === 0) return null;
  return (
    <section className={styles.form} aria-labelledby="learned">
      <h2 id="learned">What we learned last time</h2>
      {hold.map((note) => (
        <Note key={note.id} note={note} timeZone={timeZone} />
      ))}
      {past.length === 0 ? null : (
        <details>
          <summary className={styles.summary}>
            {past.length === 1 ? 'One that no longer holds' : `${past.length} that no longer hold`}
          </summary>
          {past.map((note) => (
            <Note key={note.id} note={note} timeZone={timeZone} />
          ))}
        </details>
      )}
    </section>
  );
}

function Note({ note, timeZone }: { note: LearnedFragment; timeZone: string }) {
  const { id, words, at, by, model, photos, stillTrue, judgedAt, judgedBy } = note;
  const judging = useLearned();
  const judge = (holds: boolean) => judging.mutate({ judge: { noteId: id, stillTrue: holds } });
  const said =
    judgedAt === null || judgedBy === null
      ? ''
      : `. ${stillTrue ? 'Still true' : 'No longer true'}: ${judgedBy.name}, ${dayText(judgedAt, timeZone)}`;
  return (
    <article className={styles.learned} data-past={stillTrue ? undefined : ''}>
      <p>{words}</p>
      <p className={styles.second}>
        {by.name}, {dayText(at, timeZone)},{' '}
        {model === null ? 'on every model' : `on the ${model.name}`}
        {said}
      </p>
      <Photos of={words} photos={photos.map(photoOfShop)} />
      {judging.error === null ? null : (
        <ErrorNote head="Not noted">{judging.error.message}</ErrorNote>
      )}
      <div className={styles.pair}>
        <Button
          size="bench"
          onClick={() => judge(true)}
          busy={judging.isPending ? 'Sending' : undefined}
        >
          Still true
        </Button>
        {stillTrue ? (
          <Button
            size="bench"
            onClick={() => judge(false)}
            busy={judging.isPending ? 'Sending' : undefined}
          >
            No longer true
          </Button>
        ) : null}
      </div>
    </article>
  );
}
