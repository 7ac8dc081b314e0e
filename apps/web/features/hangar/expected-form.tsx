'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { graphql } from '../../graphql/document.ts';
import type { NoteExpectedInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './promise.module.css';

const NoteExpectedDocument = graphql(`
  mutation NoteExpected($input: NoteExpectedInput!) {
    noteExpected(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Expectation {
        id
      }
    }
  }
`);

/** An item that waits for something in words of its own, or a part of the catalogue, which has its name. */
export interface ExpectedThing {
  id: string;
  words: string;
  of: Pick<NoteExpectedInput, 'itemId'> | Pick<NoteExpectedInput, 'partId'>;
  waits: boolean;
}

/** Where the day is noted on which something is expected, and who said so. */
export function ExpectedForm({
  which,
  things,
  words = 'Note when a part or an answer is expected',
}: {
  which: string;
  things: readonly ExpectedThing[];
  words?: string;
}) {
  const [id, setId] = useState(things.find(({ waits }) => waits)?.id ?? '');
  const [what, setWhat] = useState('');
  const [expectedOn, setExpectedOn] = useState('');
  const [saidBy, setSaidBy] = useState('');
  const note = useDoing(
    async (input: NoteExpectedInput) =>
      (await request(NoteExpectedDocument, { input })).noteExpected,
    () => {
      setWhat('');
      setExpectedOn('');
    },
  );
  const chosen = things.find((thing) => thing.id === id);
  const named = chosen !== undefined && 'partId' in chosen.of;
  return (
    <div data-screen-only="">
      <More words={words}>
        <form
          className={styles.form}
          onSubmit={(event) => {
            event.preventDefault();
            if (chosen === undefined) return;
            note.mutate({
              ...chosen.of,
              ...(named ? {} : { what }),
              saidBy,
              expectedOn: expectedOn === '' ? null : expectedOn,
            });
          }}
        >
          <div className={styles.pair}>
            <Select
              label={which}
              value={id}
              onChange={(event) => setId(event.currentTarget.value)}
              options={[
                { value: '', words: 'choose' },
                ...things.map((thing) => ({ value: thing.id, words: thing.words })),
              ]}
            />
            {named ? null : (
              <Field
                label="What is expected"
                maxLength={120}
                value={what}
                onChange={(event) => setWhat(event.currentTarget.value)}
              />
            )}
            <Field
              label="On which day"
              type="date"
              hint="Left empty: nobody can say. A part is fitted from the day after."
              value={expectedOn}
              onChange={(event) => setExpectedOn(event.currentTarget.value)}
            />
            <Field
              label="Who said so"
              maxLength={120}
              value={saidBy}
              onChange={(event) => setSaidBy(event.currentTarget.value)}
            />
          </div>
          {note.error === null ? null : (
            <ErrorNote head="Not noted">{note.error.message}</ErrorNote>
          )}
          <div>
            <Button
              type="submit"
              disabled={
                chosen === undefined || saidBy.trim() === '' || (!named && what.trim() === '')
              }
              busy={note.isPending ? 'Noting' : undefined}
            >
              Note it
            </Button>
          </div>
        </form>
      </More>
    </div>
  );
}
