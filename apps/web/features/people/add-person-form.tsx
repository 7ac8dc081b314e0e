'use client';

import { type FormEvent, useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import type { Invitation } from './invitation-shown.tsx';
import styles from './people.module.css';
import { PersonFields, type PersonTyped } from './person-fields.tsx';
import { AddPersonDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';

/** Somebody begins to work here; with an address they also get an invitation. */
export function AddPersonForm({
  onBack,
  onAdded,
}: {
  onBack: () => void;
  onAdded: (invitation: Invitation | null) => void;
}) {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const [typed, setTyped] = useState<PersonTyped>({
    name: '',
    initials: '',
    roles: ['mechanic'],
    apprentice: false,
  });
  const [email, setEmail] = useState('');
  const adding = useSetting(
    async () =>
      (await request(AddPersonDocument, { input: { ...typed, email: email.trim() || null } }))
        .addPerson,
    (said) => {
      if (said.__typename === 'AddedPerson')
        onAdded(said.invitation ? { ...said.invitation, name: said.person.name } : null);
    },
  );
  function submit(event: FormEvent) {
    event.preventDefault();
    adding.go(undefined);
  }
  return (
    <form
      ref={form}
      className={styles.form}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !adding.busy) onBack();
      }}
      aria-label="Add somebody"
    >
      <PersonFields
        typed={typed}
        onType={(over) => setTyped({ ...typed, ...over })}
        about={adding.about}
      />
      <Field
        label="E-mail address"
        type="email"
        autoComplete="off"
        hint="They sign in with it. Left empty, they have no way in yet. You get a link to give them."
        value={email}
        wrong={adding.about('email')}
        onChange={(event) => setEmail(event.currentTarget.value)}
      />
      {adding.sentence === undefined ? null : (
        <ErrorNote head="Not added">{adding.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" busy={adding.busy ? 'Adding' : undefined}>
          Add them
        </Button>
        <Button disabled={adding.busy} onClick={onBack}>
          Not now
        </Button>
      </div>
    </form>
  );
}
