'use client';

import { QueryCache, QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { usePathname } from 'next/navigation';
import { type ReactNode, useEffect, useState } from 'react';
import { RequestProblem } from '../graphql/request.ts';
import { followShop } from './follow-shop.ts';

/** Sends a reader whose session has ended to the sign-in sheet and brings them back afterwards. */
function toSignIn(problem: unknown): void {
  if (!(problem instanceof RequestProblem) || problem.kind !== 'signIn') return;
  const { pathname, search } = window.location;
  if (pathname === '/sign-in') return;
  window.location.assign(`/sign-in?back=${encodeURIComponent(pathname + search)}`);
}

function makeClient(): QueryClient {
  return new QueryClient({
    queryCache: new QueryCache({ onError: toSignIn }),
    defaultOptions: {
      queries: {
        staleTime: 10_000,
        // Whether there is a network is known when it was tried: a browser that says yes knows of some Wi-Fi only.
        networkMode: 'always',
        refetchOnReconnect: true,
        // Only an absent network is worth asking again; a refusal stays a refusal.
        retry: (count, problem) =>
          problem instanceof RequestProblem && problem.kind === 'away' && count < 3,
      },
      mutations: { retry: false, networkMode: 'always', onError: toSignIn },
    },
  });
}

/** Pages of those who have not signed in. */
const OUTSIDE = new Set(['/sign-in', '/invited', '/specimen']);

/** One cache of answers for the whole visit, kept up with what happens in the shop. */
export function QueryProvider({ children }: { children: ReactNode }) {
  const [client] = useState(makeClient);
  const inside = !OUTSIDE.has(usePathname() ?? '');
  useEffect(() => (inside ? followShop(client) : undefined), [client, inside]);
  return <QueryClientProvider client={client}>{children}</QueryClientProvider>;
}
