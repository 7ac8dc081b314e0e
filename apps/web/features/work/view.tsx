'use client';

import { useSearchParams } from 'next/navigation';
import type { ComponentProps, MouseEvent } from 'react';

/** What the bench shows. Kept in the address, so that a job card's code and the back key both work. */
export type View =
  | { kind: 'list' }
  | { kind: 'item'; id: string }
  /** `item` null: found while at nothing. */
  | { kind: 'found'; item: string | null };

export function viewAddress(view: View): string {
  if (view.kind === 'list') return '/bench';
  if (view.kind === 'item') return `/bench?item=${encodeURIComponent(view.id)}`;
  return `/bench?found=${encodeURIComponent(view.item ?? '')}`;
}

export function useView(): View {
  // Null only on a page outside of app/.
  const asked = useSearchParams();
  const [item, found] = [asked?.get('item') ?? null, asked?.get('found') ?? null];
  if (found !== null) return { kind: 'found', item: found === '' ? null : found };
  return item === null ? { kind: 'list' } : { kind: 'item', id: item };
}

/** Changes the view without asking the server for a page: it works with the network down. */
export function goTo(view: View): void {
  window.history.pushState(null, '', viewAddress(view));
  window.scrollTo(0, 0);
}

export function ViewLink({
  view,
  children,
  ...rest
}: { view: View } & Omit<ComponentProps<'a'>, 'href' | 'onClick'>) {
  const follow = (event: MouseEvent) => {
    if (event.metaKey || event.ctrlKey || event.shiftKey || event.button !== 0) return;
    event.preventDefault();
    goTo(view);
  };
  return (
    <a {...rest} href={viewAddress(view)} onClick={follow}>
      {children}
    </a>
  );
}
