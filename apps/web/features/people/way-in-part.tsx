'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import type { Invitation } from './invitation-shown.tsx';
import styles from './people.module.css';
import type { PersonOnSheet } from './shop-documents.ts';
import {
  DeactivatePersonDocument,
  InvitePersonDocument,
  TakeBackPersonDocument,
} from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';

/** How somebody comes in, and how they go. */
export function WayInPart({
  each,
  onInvited,
}: {
  each: PersonOnSheet;
  onInvited: (invitation: Invitation) => void;
}) {
  const { person, signIn } = each;
  const [asking, setAsking] = useState(false);
  const [email, setEmail] = useState(signIn?.email ?? '');
  const asRead = { personId: person.id, expectedVersion: person.version };
  const inviting = useSetting(
    async (byMail: boolean) =>
      (await request(InvitePersonDocument, { input: { personId: person.id, email, byMail } }))
        .invitePerson,
    (said) => {
      if (said.__typename === 'Invitation') onInvited({ ...said, name: person.name });
    },
  );
  const leaving = useSetting(
    async () => (await request(DeactivatePersonDocument, { input: asRead })).deactivatePerson,
  );
  const back = useSetting(
    async () => (await request(TakeBackPersonDocument, { input: asRead })).takeBackPerson,
  );
  const sentence = leaving.sentence ?? back.sentence;
  function invite(event: FormEvent) {
    event.preventDefault();
    inviting.go(false);
  }
  return (
    <div className={styles.wayIn}>
      {person.active && (signIn === null || signIn.invitedUntil !== null) ? (
        <form className={styles.ask} onSubmit={invite} aria-label={`Invite ${person.name}`}>
          <Field
            label="E-mail address"
            type="email"
            required
            autoComplete="off"
            hint={
              signIn === null
                ? 'You get a link to give them; it can be mailed to them too.'
                : 'A new link takes the earlier one back.'
            }
            value={email}
            wrong={inviting.sentence}
            onChange={(event) => setEmail(event.currentTarget.value)}
          />
          <div className={styles.ways}>
            <Button type="submit" busy={inviting.busy ? 'Making a link' : undefined}>
              {signIn === null ? 'Make an invitation' : 'Make a new link'}
            </Button>
            <Button
              disabled={inviting.busy || email.trim() === ''}
              onClick={() => inviting.go(true)}
            >
              Make it and mail it
            </Button>
          </div>
        </form>
      ) : null}
      {!person.active ? (
        <Button busy={back.busy ? 'Taking back' : undefined} onClick={() => back.go(undefined)}>
          {person.name} works here again
        </Button>
      ) : asking ? (
        <form
          className={styles.ask}
          onSubmit={(event) => {
            event.preventDefault();
            leaving.go(undefined);
          }}
          aria-label={`${person.name} leaves`}
          onKeyDown={(event) => {
            if (event.key === 'Escape' && !leaving.busy) setAsking(false);
          }}
        >
          <p className={styles.consequence}>
            At once {person.name} is signed out everywhere and can no longer sign in
            {each.clockRuns ? ', and their running clock stops now' : ''}. What a telephone of
            theirs has not sent yet is not taken any more: let it send first. What they did and
            signed stays theirs.
          </p>
          <div className={styles.ways}>
            <Button type="submit" busy={leaving.busy ? 'Ending' : undefined}>
              Yes, {person.name} leaves
            </Button>
            <Button disabled={leaving.busy} onClick={() => setAsking(false)}>
              Not now
            </Button>
          </div>
        </form>
      ) : (
        <Button onClick={() => setAsking(true)}>{person.name} leaves the shop</Button>
      )}
      {sentence === undefined ? null : <ErrorNote head="Not done">{sentence}</ErrorNote>}
    </div>
  );
}
