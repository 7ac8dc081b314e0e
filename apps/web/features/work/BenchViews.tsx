'use client';

import { lazy, Suspense, useEffect } from 'react';
import { BenchSheet } from './BenchSheet.tsx';
import { useView } from './view.tsx';

/** What the list does not need comes after it: forms, photos and drawings of aircraft. */
const itemSheet = () => import('./ItemSheet.tsx');
const foundSheet = () => import('./FoundSheet.tsx');
const ItemSheet = lazy(() => itemSheet().then(({ ItemSheet }) => ({ default: ItemSheet })));
const FoundSheet = lazy(() => foundSheet().then(({ FoundSheet }) => ({ default: FoundSheet })));

/** Safari has no requestIdleCallback. */
const whenIdle = (work: () => void) =>
  'requestIdleCallback' in window
    ? window.requestIdleCallback(work, { timeout: 1000 })
    : setTimeout(work, 200);

/** The bench: the list, one item, or a finding being noted. */
export function BenchViews() {
  const view = useView();
  useEffect(() => {
    // All of it right after the first paint, so that it is here when the network goes.
    whenIdle(() => {
      void Promise.allSettled([itemSheet(), foundSheet()]);
    });
  }, []);
  if (view.kind === 'list') return <BenchSheet />;
  return (
    <Suspense>
      {view.kind === 'item' ? (
        <ItemSheet key={view.id} id={view.id} />
      ) : (
        <FoundSheet itemId={view.item} />
      )}
    </Suspense>
  );
}
