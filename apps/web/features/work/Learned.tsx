'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Photos, photoOfShop } from '../../components/Photos.tsx';
import { dayText } from '../../lib/figures/dates.ts';
import { useUnsentFacts } from '../safety/kept-facts.ts';
import { useFact } from '../safety/use-fact.ts';
import styles from './bench.module.css';
import type { ItemOnSheet } from './item-documents.ts';
import { learnedNow, type NoteNow, shortly } from './learned-now.ts';

/** What whoever did this before wants the next to know: said before the work, and judged by who did it again. */
export function Learned({ item, timeZone }: { item: ItemOnSheet; timeZone: string }) {
  const notes = learnedNow(item, useUnsentFacts());
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

function Note({ note, timeZone }: { note: NoteNow; timeZone: string }) {
  const { id, words, at, by, model, photos, stillTrue, judgedAt, judgedBy, unsent } = note;
  const judging = useFact('judge');
  const judge = (holds: boolean) =>
    judging.mutate({
      input: { noteId: id, stillTrue: holds },
      words: `${holds ? 'Still' : 'No longer'} true: ${shortly(words)}`,
    });
  const said =
    judgedAt === null || judgedBy === null
      ? ''
      : `. ${stillTrue ? 'Still true' : 'No longer true'}: ${judgedBy.name}, ${dayText(judgedAt, timeZone)}`;
  return (
    <article className={styles.learned} data-past={stillTrue ? undefined : ''}>
      <p>{words}</p>
      <p className={styles.second}>
        {by.name}, {dayText(at, timeZone)},{' '}
        {model === null
          ? 'on every model'
          : model.name === ''
            ? 'on this model'
            : `on the ${model.name}`}
        {said}
        {unsent ? '; not sent yet' : ''}
      </p>
      <Photos of={words} photos={photos.map(photoOfShop)} />
      {judging.error === null ? null : (
        <ErrorNote head="Not noted">{judging.error.message}</ErrorNote>
      )}
      {/* One's own that the shop has not got yet is judged by nobody. */}
      {id === note.clientEventId ? null : (
        <div className={styles.pair}>
          <Button size="bench" onClick={() => judge(true)}>
            Still true
          </Button>
          {stillTrue ? (
            <Button size="bench" onClick={() => judge(false)}>
              No longer true
            </Button>
          ) : null}
        </div>
      )}
    </article>
  );
}
