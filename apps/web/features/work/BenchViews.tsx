'use client';

import { BenchSheet } from './BenchSheet.tsx';
import { FoundSheet } from './FoundSheet.tsx';
import { ItemSheet } from './ItemSheet.tsx';
import { useView } from './view.tsx';

/** The bench: the list, one item, or a finding being noted. */
export function BenchViews() {
  const view = useView();
  if (view.kind === 'item') return <ItemSheet key={view.id} id={view.id} />;
  return view.kind === 'found' ? <FoundSheet itemId={view.item} /> : <BenchSheet />;
}
