'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { AddPersonForm } from './add-person-form.tsx';
import { type Invitation, InvitationShown } from './invitation-shown.tsx';
import styles from './people.module.css';
import { PersonRow } from './person-row.tsx';
import type { ShopSheet } from './shop-documents.ts';

/** Who works here, what they hold, and how they come in. */
export function PeoplePart({ sheet }: { sheet: ShopSheet }) {
  const [adding, setAdding] = useState(false);
  const [invitation, setInvitation] = useState<Invitation | null>(null);
  const here = sheet.people.filter(({ person }) => person.active);
  const left = sheet.people.filter(({ person }) => !person.active);
  const rows = (people: typeof here) => (
    <ul className={styles.people}>
      {people.map((each) => (
        <PersonRow key={each.person.id} each={each} sheet={sheet} onInvited={setInvitation} />
      ))}
    </ul>
  );
  return (
    <section className={styles.part} aria-labelledby="people">
      <div className={styles.partHead}>
        <h2 id="people">People</h2>
        <Button aria-expanded={adding} onClick={() => setAdding(!adding)}>
          Add somebody
        </Button>
      </div>
      {adding ? (
        <AddPersonForm
          onBack={() => setAdding(false)}
          onAdded={(made) => {
            setAdding(false);
            setInvitation(made);
          }}
        />
      ) : null}
      {invitation ? (
        <InvitationShown
          invitation={invitation}
          timeZone={sheet.shop.timeZone}
          onDone={() => setInvitation(null)}
        />
      ) : null}
      {rows(here)}
      {left.length === 0 ? null : (
        <details className={styles.left}>
          <summary>Left the shop: {left.length}</summary>
          {rows(left)}
        </details>
      )}
    </section>
  );
}
