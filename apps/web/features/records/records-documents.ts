import { graphql } from '../../graphql/document.ts';
import type { OrderToSignQuery } from '../../graphql/generated/graphql.ts';
// Their fragments.
import '../quoting/finding-on-sheet.ts';
import './entry-documents.ts';

/** The orders that an inspector has before them, newest first. */
export const OrdersToSignDocument = graphql(`
  query OrdersToSign {
    orders(first: 60, states: [here, ready_to_sign, released]) {
      edges {
        node {
          id
          number
          title
          state
          outcome
          aircraft {
            id
            registration
          }
          items {
            id
            state
            waitingFor
            runningBy {
              id
              initials
            }
          }
          findings {
            id
            number
            state
            class
          }
          entries {
            id
            corrections {
              id
            }
          }
        }
      }
    }
  }
`);

export const OrderToSignDocument = graphql(`
  query OrderToSign($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        number
        title
        state
        outcome
        inspection
        openedAt
        unclosed
        leakChecks {
          kind
          state
        }
        aircraft {
          id
          registration
          serial
          model {
            maker
            name
            kind
            lengthMm
            spanMm
            heightMm
            parkedLengthMm
            parkedWidthMm
          }
        }
        events {
          id
          kind
          at
        }
        received {
          id
          what
          returnedAt
        }
        unpaid
        invoices {
          id
          state
          credits {
            id
          }
        }
        items {
          id
          position
          title
          jasc
          critical
          reference
          state
          waitingFor
          runningBy {
            id
            initials
          }
          secondsWorked
          parts {
            quantity
            answeredFor
            lot {
              id
              batch
              part {
                title
                unit
              }
            }
          }
          finding {
            id
            number
          }
          events {
            id
            kind
            workDone
            at
            by {
              id
              name
            }
          }
          stretches {
            id
            person {
              id
              name
            }
          }
        }
        findings {
          ...FindingOnSheet
        }
        entries {
          ...EntryOnSheet
        }
      }
    }
    signing(orderId: $id) {
      __typename
      ... on Refusal {
        message
      }
      ... on Signing {
        outcome
        hindrances
        books {
          needed
          signed
          left
          book {
            id
            kind
            title
          }
        }
      }
    }
  }
`);

export type OrderToSign = Extract<
  NonNullable<OrderToSignQuery['node']>,
  { __typename: 'WorkOrder' }
>;
export type ItemToSign = OrderToSign['items'][number];
export type Signing = Extract<OrderToSignQuery['signing'], { __typename: 'Signing' }>;
export type BookToSign = Signing['books'][number];
