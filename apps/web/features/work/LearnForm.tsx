'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { LongField } from '../../components/Field.tsx';
import { useFact } from '../safety/use-fact.ts';
import styles from './bench.module.css';
import type { ItemOnSheet } from './item-documents.ts';
import { shortly } from './learned-now.ts';

/** A trick for whoever does this next. Its photos are those of what was found while at it. */
export function LearnForm({ item }: { item: ItemOnSheet }) {
  const [words, setWords] = useState('');
  const [everyModel, setEveryModel] = useState(false);
  const [withPhotos, setWithPhotos] = useState(true);
  const [wrong, setWrong] = useState<string>();
  const learning = useFact('learn', () => setWords(''));
  const photoIds = item.findings
    .flatMap(({ photos }) => photos.map((photo) => photo.id))
    .slice(0, 4);
  const keep = (event: FormEvent) => {
    event.preventDefault();
    const short = words.trim().length < 3;
    setWrong(short ? 'Say what you learned.' : undefined);
    if (!short)
      learning.mutate({
        input: { itemId: item.id, words, everyModel, photoIds: withPhotos ? photoIds : [] },
        words: `Learned: ${shortly(words)}`,
      });
  };
  return (
    <details>
      <summary className={styles.summary}>Something for whoever does it next</summary>
      <form className={styles.form} onSubmit={keep} noValidate>
        <LongField
          label="What you learned"
          hint="How to get in, in which order, what to have at hand. One thing a note."
          maxLength={500}
          rows={3}
          wrong={wrong}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
        <Tick
          name="everyModel"
          words="It holds on every model"
          note="Otherwise it is shown on this model only"
          ticked={everyModel}
          onTick={setEveryModel}
        />
        {photoIds.length === 0 ? null : (
          <Tick
            name="withPhotos"
            words="With the photos of what was found here"
            ticked={withPhotos}
            onTick={setWithPhotos}
          />
        )}
        {learning.error === null ? null : (
          <ErrorNote head="Not kept">{learning.error.message}</ErrorNote>
        )}
        {learning.isSuccess ? (
          <p role="status">Kept: it is shown when this item is opened.</p>
        ) : null}
        <Button type="submit" size="bench" busy={learning.isPending ? 'Keeping' : undefined}>
          Keep it
        </Button>
      </form>
    </details>
  );
}
