'use client';

import { QueryCache, QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { type ReactNode, useState } from 'react';
import { RequestProblem } from '../graphql/request.ts';

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
        // Only an absent network is worth asking again; a refusal stays a refusal.
        retry: (count, problem) =>
          problem instanceof RequestProblem && problem.kind === 'away' && count < 3,
      },
      mutations: { retry: false, onError: toSignIn },
    },
  });
}

/** One cache of answers for the whole visit. */
export function QueryProvider({ children }: { children: ReactNode }) {
  const [client] = useState(makeClient);
  return <QueryClientProvider client={client}>{children}</QueryClientProvider>;
}
