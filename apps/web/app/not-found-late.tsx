'use client';

import { lazy, Suspense } from 'react';

/** Every page carries what its not-found page needs, so that comes in a file of its own. */
const NoSuchSheet = lazy(() => import('./no-such-sheet.tsx'));

export function NotFoundLate() {
  return (
    <Suspense>
      <NoSuchSheet />
    </Suspense>
  );
}
