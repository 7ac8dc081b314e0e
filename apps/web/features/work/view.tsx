'use client';

import { useSearchParams } from 'next/navigation';
import { type ComponentProps, type MouseEvent, useSyncExternalStore } from 'react';

/** What the bench shows. Kept in the address, so that a job card's code and the back key both work. */
export type View =
  | { kind: 'list' }
  | { kind: 'item'; id: string }
  /** What is open on an aircraft. */
  | { kind: 'order'; id: string }
  /** `item` null: found while at nothing. */
  | { kind: 'found'; item: string | null }
  /** What a finding may be. */
  | { kind: 'finding'; id: string };

export function viewAddress(view: View): string {
  if (view.kind === 'list') return '/bench';
  if (view.kind === 'item') return `/bench?item=${encodeURIComponent(view.id)}`;
  if (view.kind === 'finding') return `/bench?finding=${encodeURIComponent(view.id)}`;
  if (view.kind === 'order') return `/bench?order=${encodeURIComponent(view.id)}`;
  return `/bench?found=${encodeURIComponent(view.item ?? '')}`;
}

const never = () => () => undefined;

export function useView(): View {
  // Null only on a page outside of app/.
  const asked = useSearchParams();
  // The page is the list until the program runs: the one that is kept on a device opens every address of the bench.
  const runs = useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
  if (!runs) return { kind: 'list' };
  const [item, found] = [asked?.get('item') ?? null, asked?.get('found') ?? null];
  if (found !== null) return { kind: 'found', item: found === '' ? null : found };
  const finding = asked?.get('finding') ?? null;
  if (finding !== null) return { kind: 'finding', id: finding };
  if (item !== null) return { kind: 'item', id: item };
  const order = asked?.get('order') ?? null;
  return order === null ? { kind: 'list' } : { kind: 'order', id: order };
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
