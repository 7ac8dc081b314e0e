'use client';

import { lazy, Suspense } from 'react';

interface Given {
  error: Error & { digest?: string };
  reset: () => void;
}

/** Fetched when there is a fault only: every page would carry it otherwise. Without a network, plainly. */
const Fault = lazy(() =>
  import('./fault.tsx').catch(() => ({
    default: ({ again }: { again: () => void }) => (
      <main>
        <h1>This sheet could not be drawn</h1>
        <p>Its program is not on this device yet, and the shop’s server cannot be reached.</p>
        <button type="button" onClick={again}>
          Draw it again
        </button>
      </main>
    ),
  })),
);

export default function ErrorPage({ error, reset }: Given) {
  return (
    <Suspense>
      <Fault {...(error.digest === undefined ? {} : { digest: error.digest })} again={reset} />
    </Suspense>
  );
}
