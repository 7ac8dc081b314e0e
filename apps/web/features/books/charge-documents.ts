import { graphql } from '../../graphql/document.ts';
import type { ChargesOfOrderQuery } from '../../graphql/generated/graphql.ts';

export const ChargesOfOrderDocument = graphql(`
  query ChargesOfOrder($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        state
        aircraft {
          registration
          contacts {
            contact {
              name
            }
          }
        }
        charges {
          id
          kind
          title
          amount
          ended
          at
          by {
            name
          }
        }
        readyNotices {
          id
          told
          channel
          toldAt
        }
        storage {
          toldOn
          lastOn
          left
          freeDays
          dayPrice
          days
          charged
          open
        }
        invoices {
          id
          state
          sale {
            id
          }
          credits {
            id
          }
        }
      }
    }
  }
`);

export type OrderWithCharges = Extract<
  NonNullable<ChargesOfOrderQuery['node']>,
  { __typename: 'WorkOrder' }
>;

export const AddOrderChargeDocument = graphql(`
  mutation AddOrderCharge($input: AddOrderChargeInput!) {
    result: addOrderCharge(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on OrderCharge {
        id
      }
    }
  }
`);

export const EndOrderChargeDocument = graphql(`
  mutation EndOrderCharge($input: EndOrderChargeInput!) {
    result: endOrderCharge(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on OrderCharge {
        id
      }
    }
  }
`);

export const ChargeStorageDocument = graphql(`
  mutation ChargeStorage($input: ChargeStorageInput!) {
    result: chargeStorage(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on OrderCharge {
        id
      }
    }
  }
`);

export const TellReadyDocument = graphql(`
  mutation TellReady($input: TellReadyInput!) {
    result: tellReady(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on WorkOrder {
        id
      }
    }
  }
`);
