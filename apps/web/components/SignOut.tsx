'use client';

import { useEffect, useState } from 'react';
import { useKnownViewer } from '../lib/use-viewer.ts';
import { Button } from './Button.tsx';

/** On a shared device nobody stays signed in for the next one who comes along. */
const IDLE_MS = 3 * 60_000;

async function signOut(): Promise<boolean> {
  const response = await fetch('/auth/sign-out', {
    method: 'POST',
    credentials: 'same-origin',
    headers: { 'content-type': 'application/json' },
    body: '{}',
  }).catch(() => null);
  if (response?.ok !== true) return false;
  await import('../lib/forget-bench.ts')
    .then(({ forgetBench }) => forgetBench({ program: true }))
    .catch(() => undefined);
  window.location.assign('/sign-in');
  return true;
}

/** Ends the session and returns to the sign-in sheet; on a shared device by itself, when nobody touches it. */
export function SignOut() {
  const shared = useKnownViewer()?.shared ?? false;
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (!shared) return;
    let timer = setTimeout(() => void signOut(), IDLE_MS);
    const touched = () => {
      clearTimeout(timer);
      timer = setTimeout(() => void signOut(), IDLE_MS);
    };
    const signs = ['pointerdown', 'keydown', 'scroll'];
    for (const sign of signs) window.addEventListener(sign, touched, { passive: true });
    return () => {
      clearTimeout(timer);
      for (const sign of signs) window.removeEventListener(sign, touched);
    };
  }, [shared]);
  const words = shared ? 'Change person' : 'Sign out';
  return (
    <Button kind="plain" onClick={() => void signOut().then((done) => setFailed(!done))}>
      {failed ? 'Not signed out, try again' : words}
    </Button>
  );
}
