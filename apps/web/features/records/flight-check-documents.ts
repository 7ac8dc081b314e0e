import { graphql } from '../../graphql/document.ts';

export const FlightChecksDocument = graphql(`
  query FlightChecks($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        flightChecks {
          id
          kind
          words
          pilotName
          pilotCertificate
          flownOn
          at
          by {
            name
          }
        }
      }
    }
  }
`);

export const NoteFlightCheckDocument = graphql(`
  mutation NoteFlightCheck($input: NoteFlightCheckInput!) {
    answer: noteFlightCheck(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);
