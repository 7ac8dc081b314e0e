'use client';

import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import type { OpenKind } from '../../graphql/generated/graphql.ts';
import styles from './safety.module.css';
import { closing, quickWords } from './safety-words.ts';
import { useFact } from './use-fact.ts';

const kinds = [
  { value: 'opened', words: 'Opened', note: 'A panel, a door, a fairing' },
  { value: 'removed', words: 'Removed', note: 'A part that is off' },
] as const;

/** Notes what was opened or taken off: a touch for the usual words, or words of one's own. */
export function NoteOpenLine({ orderId, itemId }: { orderId: string; itemId: string | null }) {
  const [kind, setKind] = useState<OpenKind>('opened');
  const [words, setWords] = useState('');
  const [place, setPlace] = useState('');
  const [wrong, setWrong] = useState<string>();
  const what = useRef<HTMLInputElement>(null);
  const noting = useFact('noteOpen', () => {
    setWords('');
    setPlace('');
    what.current?.focus();
  });
  const note = (event: FormEvent) => {
    event.preventDefault();
    const short = words.trim().length < 2;
    setWrong(short ? 'Say what it is.' : undefined);
    if (short) what.current?.focus();
    else
      noting.mutate({
        input: { orderId, itemId, kind, words, place },
        words: `${words}: ${closing[kind].open}`,
      });
  };
  return (
    <details>
      <summary className={styles.summary}>Note what you opened or took off</summary>
      <form className={styles.form} onSubmit={note} noValidate>
        <Choices
          legend="It was"
          name="openKind"
          options={kinds}
          value={kind}
          onChoose={(value) => setKind(value as OpenKind)}
        />
        <fieldset className={styles.quick} aria-label="Usual words">
          {quickWords[kind].map((each) => (
            <Button key={each} onClick={() => setWords(each)}>
              {each}
            </Button>
          ))}
        </fieldset>
        <Field
          label="What"
          ref={what}
          maxLength={200}
          wrong={wrong}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
        <Field
          label="Where"
          hint="Left, right, station, number."
          maxLength={120}
          value={place}
          onChange={(event) => setPlace(event.currentTarget.value)}
        />
        {noting.error === null ? null : (
          <ErrorNote head="Not noted">{noting.error.message}</ErrorNote>
        )}
        <Button type="submit" busy={noting.isPending ? 'Noting it' : undefined}>
          Note it
        </Button>
      </form>
    </details>
  );
}
