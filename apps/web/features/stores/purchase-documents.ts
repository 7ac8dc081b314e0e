import { graphql } from '../../graphql/document.ts';
import type { PurchaseSheetQuery, WhatToOrderQuery } from '../../graphql/generated/graphql.ts';

export const WhatToOrderDocument = graphql(`
  query WhatToOrder {
    partsToOrder {
      free
      onOrder
      missing
      part {
        id
        number
        title
        unit
        reorderPoint
        lots(first: 1) {
          edges {
            node {
              id
              supplier
              unitCost
            }
          }
        }
      }
    }
    purchaseOrders(first: 50) {
      edges {
        node {
          id
          number
          supplier
          state
          expectedOn
          total
          currency
          draftedAt
          lines {
            id
            quantity
            received
            part {
              id
              title
            }
          }
        }
      }
    }
  }
`);

export const PurchaseSheetDocument = graphql(`
  query PurchaseSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on PurchaseOrder {
        id
        number
        supplier
        supplierEmail
        expectedOn
        note
        currency
        state
        total
        draftedAt
        by {
          id
          name
        }
        pastAuthority {
          beyond
          ceiling
          order {
            id
            number
            aircraft {
              id
              registration
            }
          }
        }
        events {
          id
          kind
          channel
          reason
          despite
          at
          by {
            id
            name
          }
        }
        lines {
          id
          position
          quantity
          unitCost
          net
          received
          part {
            id
            number
            title
            unit
          }
          item {
            id
            position
            title
            order {
              id
              number
              aircraft {
                id
                registration
              }
            }
          }
          lots {
            id
            batch
          }
        }
      }
    }
  }
`);

/** The work that parts can be bought for: of aircraft that are here or expected. */
export const WorkToBuyForDocument = graphql(`
  query WorkToBuyFor {
    orders(first: 100, states: [planned, here, ready_to_sign]) {
      edges {
        node {
          id
          number
          aircraft {
            id
            registration
          }
          items {
            id
            position
            title
            state
          }
        }
      }
    }
  }
`);

export const DraftPurchaseDocument = graphql(`
  mutation DraftPurchase($input: DraftPurchaseInput!) {
    draftPurchase(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on PurchaseOrder {
        id
      }
    }
  }
`);

export const SendPurchaseDocument = graphql(`
  mutation SendPurchase($input: SendPurchaseInput!) {
    sendPurchase(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const CancelPurchaseDocument = graphql(`
  mutation CancelPurchase($input: CancelPurchaseInput!) {
    cancelPurchase(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export type PartToOrder = WhatToOrderQuery['partsToOrder'][number];
export type PurchaseInList = WhatToOrderQuery['purchaseOrders']['edges'][number]['node'];
export type Purchase = Extract<PurchaseSheetQuery['node'], { __typename: 'PurchaseOrder' }>;
export type PurchaseLine = Purchase['lines'][number];
