'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './post.module.css';
import { SetContactEmailDocument } from './post-documents.ts';

/** To which address a contact's mail goes, and another one for it. No form of its own: it may stand within one. */
export function ContactEmail({
  contact,
}: {
  contact: { id: string; name: string; email: string | null };
}) {
  const [typed, setTyped] = useState(contact.email ?? '');
  const set = useDoing(async () => {
    const input = { contactId: contact.id, email: typed };
    return (await request(SetContactEmailDocument, { input })).setContactEmail;
  });
  const same = typed.trim() === (contact.email ?? '');
  return (
    <div className={styles.address}>
      <Field
        label={`E-mail address of ${contact.name}`}
        type="email"
        autoComplete="off"
        value={typed}
        hint={contact.email === null ? 'None is known: nothing can be mailed.' : undefined}
        wrong={set.error?.message}
        onChange={(event) => setTyped(event.currentTarget.value)}
      />
      {same ? null : (
        <Button busy={set.isPending ? 'Saving' : undefined} onClick={() => set.mutate(undefined)}>
          Save the address
        </Button>
      )}
    </div>
  );
}
