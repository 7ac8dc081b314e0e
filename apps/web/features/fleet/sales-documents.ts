import { graphql } from '../../graphql/document.ts';
import type { SalesOfAircraftQuery } from '../../graphql/generated/graphql.ts';

export const SalesOfAircraftDocument = graphql(`
  query SalesOfAircraft($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        registration
        contacts {
          capacity
          contact {
            id
            name
          }
        }
        sales {
          id
          soldOn
          note
          seller {
            id
            name
          }
          buyer {
            name
          }
          orders {
            id
            number
            title
          }
          invoices {
            id
            number
            state
            credits {
              id
            }
            order {
              id
            }
          }
        }
      }
    }
  }
`);

export type AircraftWithSales = Extract<
  NonNullable<SalesOfAircraftQuery['node']>,
  { __typename: 'Aircraft' }
>;

export const SellAircraftDocument = graphql(`
  mutation SellAircraft($input: SellAircraftInput!) {
    result: sellAircraft(input: $input) {
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
