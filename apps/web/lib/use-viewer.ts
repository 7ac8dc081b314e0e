import { useQuery } from '@tanstack/react-query';
import { graphql } from '../graphql/document.ts';
import type { ViewerQuery } from '../graphql/generated/graphql.ts';
import { RequestProblem, request } from '../graphql/request.ts';

const ViewerDocument = graphql(`
  query Viewer {
    viewer {
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
      return viewer;
    },
    staleTime: 5 * 60_000,
  });
}
