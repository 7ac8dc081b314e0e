import { graphql } from '../../graphql/document.ts';
import type { DueOnTripQuery } from '../../graphql/generated/graphql.ts';

export const DueOnTripDocument = graphql(`
  query DueOnTrip($id: ID!, $departOn: Date!, $returnOn: Date!, $hundredths: Int!, $counts: CountsInput) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        dueOnTrip(departOn: $departOn, returnOn: $returnOn, hundredths: $hundredths, counts: $counts) {
          now
          beforeDeparture
          line {
            itemId
            title
            state
            because
            dueOn
            dueAtHundredths
            counts {
              counter
              dueAt
              remaining
            }
          }
        }
      }
    }
  }
`);
export type TripLine = Extract<
  NonNullable<DueOnTripQuery['node']>,
  { __typename: 'Aircraft' }
>['dueOnTrip'][number];
