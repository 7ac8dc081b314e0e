'use client';

import { useState } from 'react';
import { Button } from './Button.tsx';

/** Ends the session and returns to the sign-in sheet. */
export function SignOut() {
  const [words, setWords] = useState('Sign out');
  async function signOut() {
    const response = await fetch('/auth/sign-out', {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'content-type': 'application/json' },
      body: '{}',
    }).catch(() => null);
    if (response?.ok === true) window.location.assign('/sign-in');
    else setWords('Not signed out, try again');
  }
  return (
    <Button kind="plain" onClick={() => void signOut()}>
      {words}
    </Button>
  );
}
