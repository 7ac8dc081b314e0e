'use client';

import { useRouter } from 'next/navigation';
import type { ComponentProps, MouseEvent } from 'react';

/** To another sheet, without loading the program anew. Nothing is fetched ahead, so Next's own link would be 4 kB for nothing. */
export function SheetLink({ href, ...rest }: { href: string } & Omit<ComponentProps<'a'>, 'href'>) {
  const router = useRouter();
  const follow = (event: MouseEvent) => {
    const elsewhere = event.metaKey || event.ctrlKey || event.shiftKey || event.altKey;
    if (event.defaultPrevented || elsewhere || event.button !== 0) return;
    event.preventDefault();
    router.push(href);
  };
  return <a {...rest} href={href} onClick={follow} />;
}
