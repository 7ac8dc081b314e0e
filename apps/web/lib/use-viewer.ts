import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useSyncExternalStore } from 'react';
import { graphql } from '../graphql/document.ts';
import type { ViewerQuery } from '../graphql/generated/graphql.ts';
import { RequestProblem, request } from '../graphql/request.ts';

const ViewerDocument = graphql(`
  query Viewer {
    viewer {
      shared
      person {
        id
        name
        initials
        roles
        certificates {
          id
          kind
          number
          validFrom
          validUntil
        }
      }
      shop {
        id
        name
        place
        currency
        timeZone
        billingStep
        clearanceMm
        timeInServiceBasis
      }
    }
  }
`);

/** The person signed in and their shop: its currency and time zone are every figure's. */
export type Viewer = NonNullable<ViewerQuery['viewer']>;

/** On a shared device whoever works is a mechanic, for the shop as for its pages. */
const atTheBench = (viewer: Viewer): Viewer => ({
  ...viewer,
  person: { ...viewer.person, roles: ['mechanic'] },
});

/**
 * Who is reading. Nobody signed in is a problem of kind `signIn`, which the query provider answers
 * by going to the sign-in sheet; a page only has to wait for `data`.
 */
export function useViewer() {
  return useQuery<Viewer, Error>({
    queryKey: ['viewer'],
    queryFn: async () => {
      const { viewer } = await request(ViewerDocument);
      if (!viewer) throw new RequestProblem('signIn', 'SIGN_IN_NEEDED', 'Sign in to go on.');
      return viewer.shared ? atTheBench(viewer) : viewer;
    },
    staleTime: 5 * 60_000,
  });
}

/** Who is reading, where a page has asked already; asks nothing itself, so that pages for strangers may show it too. */
export function useKnownViewer(): Viewer | undefined {
  const queries = useQueryClient();
  // No query of its own: it would take the question away from the page's.
  return useSyncExternalStore(
    (heard) => queries.getQueryCache().subscribe(heard),
    () => queries.getQueryData<Viewer>(['viewer']),
    () => undefined,
  );
}
