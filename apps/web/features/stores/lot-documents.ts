import { graphql } from '../../graphql/document.ts';
import type { LotSheetQuery, OrdersToKeepForQuery } from '../../graphql/generated/graphql.ts';
import './stores-documents.ts';

export const LotSheetDocument = graphql(`
  query LotSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on Lot {
        ...LotOnShelf
        reserved
        unitCost
        documents {
          id
          url
          name
          mime
          bytes
          at
          by {
            id
            name
          }
        }
        movements {
          id
          kind
          quantity
          counted
          fromReserved
          despite
          reason
          at
          by {
            id
            name
          }
          item {
            id
            position
            title
            order {
              id
              number
              aircraft {
                registration
              }
            }
          }
        }
        reservedFor {
          quantity
          order {
            id
            number
            title
            aircraft {
              registration
            }
          }
        }
        reservations {
          id
          kind
          quantity
          reason
          at
          by {
            id
            name
          }
          order {
            id
            number
            aircraft {
              registration
            }
          }
        }
        wentTo {
          issued
          returned
          stillOn
          firstAt
          lastAt
          despite {
            id
            despite
            reason
            by {
              id
              name
            }
          }
          item {
            id
            position
            title
            order {
              id
              number
              state
              aircraft {
                id
                registration
                serial
              }
            }
          }
        }
        sameBatch {
          id
          receivedOn
          onHand
          bin
        }
      }
    }
  }
`);

/** What is kept for which order, asked when a part is about to be issued. */
export const KeptOfLotDocument = graphql(`
  query KeptOfLot($id: ID!) {
    node(id: $id) {
      ... on Lot {
        id
        available
        reservedFor {
          quantity
          order {
            id
          }
        }
      }
    }
  }
`);

export const OrdersToKeepForDocument = graphql(`
  query OrdersToKeepFor {
    orders(first: 100, states: [planned, here, ready_to_sign]) {
      edges {
        node {
          id
          number
          title
          aircraft {
            registration
          }
        }
      }
    }
  }
`);

export const ScrapPartDocument = graphql(`
  mutation ScrapPart($input: ScrapPartInput!) {
    scrapPart(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const CountLotDocument = graphql(`
  mutation CountLot($input: CountLotInput!) {
    countLot(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const ReservePartDocument = graphql(`
  mutation ReservePart($input: ReservePartInput!) {
    reservePart(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const ReleaseReservedDocument = graphql(`
  mutation ReleaseReserved($input: ReservePartInput!) {
    releaseReserved(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export type LotOnSheet = Extract<LotSheetQuery['node'], { __typename: 'Lot' }>;
export type OrderToKeepFor = OrdersToKeepForQuery['orders']['edges'][number]['node'];
