import { graphql } from '../../graphql/document.ts';
import type { AircraftTimesQuery } from '../../graphql/generated/graphql.ts';

export const AircraftTimesDocument = graphql(`
  query AircraftTimes($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        readings(first: 12) {
          id
          meter
          readingHundredths
          tisHundredths
          offsetHundredths
          readAt
          source
          oldReadingHundredths
          reason
          landings
          starts
          counts {
            cycles
            landings
            starts
          }
          readBy {
            id
            name
          }
          photo {
            id
            largeUrl
          }
        }
      }
    }
  }
`);
export type ReadingShown = Extract<
  NonNullable<AircraftTimesQuery['node']>,
  { __typename: 'Aircraft' }
>['readings'][number];

export const RecordReadingDocument = graphql(`
  mutation RecordReading($input: RecordReadingInput!) {
    recordReading(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Aircraft {
        id
      }
    }
  }
`);
