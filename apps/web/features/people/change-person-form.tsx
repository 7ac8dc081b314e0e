'use client';

import type { FormEvent } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import styles from './people.module.css';
import { listed, lostWith, rolesText } from './people-words.ts';
import { PersonFields } from './person-fields.tsx';
import type { PersonOnSheet } from './shop-documents.ts';
import { ChangePersonDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';
import { useTyped } from './use-typed.ts';

/** What somebody is in the shop; what they lose by a change is said before it is made. */
export function ChangePersonForm({ person }: { person: PersonOnSheet['person'] }) {
  const { name, initials, roles, apprentice } = person;
  const { typed, type, forget, meanwhile } = useTyped({ name, initials, roles, apprentice });
  const saving = useSetting(async () => {
    const input = { ...typed, personId: person.id, expectedVersion: person.version };
    return (await request(ChangePersonDocument, { input })).changePerson;
  }, forget);
  const lost = lostWith(roles, typed.roles);
  function submit(event: FormEvent) {
    event.preventDefault();
    saving.go(undefined);
  }
  return (
    <form className={styles.form} onSubmit={submit} aria-label={`What ${name} is`}>
      <PersonFields
        typed={typed}
        onType={type}
        meanwhile={(name) =>
          meanwhile(name, (now) => (name === 'roles' ? rolesText(person) : String(now)))
        }
        about={saving.about}
      />
      {lost.length === 0 ? null : (
        <p className={styles.consequence}>
          {name} can no longer {listed(lost)}, from their next request on.
        </p>
      )}
      {saving.sentence === undefined ? null : (
        <ErrorNote head="Not saved">{saving.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" busy={saving.busy ? 'Saving' : undefined}>
          Save {name}
        </Button>
      </div>
    </form>
  );
}
