'use client';

import { useQueryClient } from '@tanstack/react-query';
import { Suspense, useEffect } from 'react';
import { BenchSheet } from './BenchSheet.tsx';
import { FindingSheet, FoundSheet, fetchLateViews, ItemSheet, OrderSheet } from './late-views.tsx';
import { useView } from './view.tsx';

/** Safari has no requestIdleCallback. */
const whenIdle = (work: () => void) =>
  'requestIdleCallback' in window
    ? window.requestIdleCallback(work, { timeout: 1000 })
    : setTimeout(work, 200);

/** The bench: the list, one item, a finding being noted, or what one may be. */
export function BenchViews() {
  const view = useView();
  const queries = useQueryClient();
  useEffect(() => {
    // What was known last shows while the shop is asked.
    void import('./keep-bench.ts')
      .then(({ keepBench }) => keepBench(queries))
      .catch(() => undefined);
    // Right after the first paint.
    whenIdle(() => {
      void fetchLateViews()
        .then(() => import('./keep-program.ts'))
        .then(({ keepProgram }) => keepProgram())
        // A browser that keeps no program opens it from the shop.
        .catch(() => undefined);
    });
  }, [queries]);
  if (view.kind === 'list') return <BenchSheet />;
  return (
    <Suspense>
      {view.kind === 'item' ? (
        <ItemSheet key={view.id} id={view.id} />
      ) : view.kind === 'finding' ? (
        <FindingSheet key={view.id} id={view.id} />
      ) : view.kind === 'order' ? (
        <OrderSheet key={view.id} id={view.id} />
      ) : (
        <FoundSheet itemId={view.item} />
      )}
    </Suspense>
  );
}
