'use client';

import { type FormEvent, useEffect, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import styles from './people.module.css';

interface Invitation {
  name: string;
  shop: string;
  email: string;
}

const away = 'The shop’s server is not answering. Try again shortly.';

/** Sends the secret in the body: it stands behind the # of the address, which no server and no log ever sees. */
async function ask(path: string, body: object): Promise<Invitation | string> {
  const response = await fetch(path, {
    method: 'POST',
    credentials: 'same-origin',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  }).catch(() => null);
  const said = (await response?.json().catch(() => null)) as
    | (Invitation & { error?: { message: string } })
    | null
    | undefined;
  if (response?.ok === true && said) return said;
  return said?.error?.message ?? away;
}

/** Whom an invitation is for, and the password of their own that makes an account of it. */
export function InvitedForm() {
  const [invitation, setInvitation] = useState<Invitation | string | null>(null);
  const [password, setPassword] = useState('');
  const [again, setAgain] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void ask('/auth/invitation', { secret: window.location.hash.slice(1) }).then(setInvitation);
  }, []);
  if (invitation === null) return <Loading>Looking for your invitation</Loading>;
  if (typeof invitation === 'string')
    return <ErrorNote head="No invitation">{invitation}</ErrorNote>;
  async function accept(event: FormEvent) {
    event.preventDefault();
    setBusy(true);
    const said = await ask('/auth/invitation/accept', {
      secret: window.location.hash.slice(1),
      password,
    });
    if (typeof said !== 'string') window.location.assign('/sign-in');
    else {
      setProblem(said);
      setBusy(false);
    }
  }
  const differs = again !== '' && again !== password;
  return (
    <form className={styles.invited} onSubmit={(event) => void accept(event)}>
      <p>
        {invitation.name}, {invitation.shop} invites you. Choose a password of your own; you will
        sign in as <strong>{invitation.email}</strong>.
      </p>
      <input type="hidden" autoComplete="username" value={invitation.email} readOnly />
      <Field
        label="Password"
        type="password"
        autoComplete="new-password"
        minLength={10}
        maxLength={128}
        required
        hint="10 to 128 characters; a few words that only you would put together are best."
        value={password}
        onChange={(event) => setPassword(event.currentTarget.value)}
      />
      <Field
        label="The same again"
        type="password"
        autoComplete="new-password"
        required
        wrong={differs ? 'The two differ.' : undefined}
        value={again}
        onChange={(event) => setAgain(event.currentTarget.value)}
      />
      {problem === null ? null : <ErrorNote head="No account yet">{problem}</ErrorNote>}
      <div>
        <Button
          kind="primary"
          type="submit"
          disabled={password !== again}
          busy={busy ? 'Making your account' : undefined}
        >
          Make my account
        </Button>
      </div>
    </form>
  );
}
