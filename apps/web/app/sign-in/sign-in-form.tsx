'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { forgetBench } from '../../lib/forget-bench.ts';
import styles from './sign-in.module.css';

const sentences: Record<number, string> = {
  400: 'The e-mail address or the password is not in a form that can be checked.',
  401: 'This e-mail address and password do not belong together. Check both and try again.',
  403: 'This account may not sign in from here. Ask the manager.',
  429: 'Too many tries. Wait a minute, then try again.',
};

const away = 'The shop’s server is not answering. Nothing was sent; try again shortly.';

/** Posts to the API's sign-in, which sets the session's cookie on this origin. */
export function SignInForm({ back }: { back: string }) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);

  async function signIn(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    setBusy(true);
    setProblem(null);
    const response = await fetch('/auth/sign-in/email', {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ email: form.get('email'), password: form.get('password') }),
    }).catch(() => null);
    if (response?.ok === true) {
      // Somebody whose session ran out may have left what they saw on this device.
      await forgetBench({ program: false });
      window.location.assign(back);
      return;
    }
    setProblem(response === null ? away : (sentences[response.status] ?? away));
    setBusy(false);
  }

  return (
    <form className={styles.form} method="post" onSubmit={(event) => void signIn(event)}>
      <Field label="E-mail address" name="email" type="email" autoComplete="username" required />
      <Field
        label="Password"
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      {problem === null ? null : <ErrorNote head="Not signed in">{problem}</ErrorNote>}
      <div>
        <Button kind="primary" type="submit" busy={busy ? 'Signing in' : undefined}>
          Sign in
        </Button>
      </div>
    </form>
  );
}
