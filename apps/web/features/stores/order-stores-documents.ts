import { graphql } from '../../graphql/document.ts';

export const OrderStoresDocument = graphql(`
  query OrderStores($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        reserved {
          quantity
          lot {
            id
            batch
            bin
            part {
              id
              title
              unit
            }
          }
        }
        onOrder {
          quantity
          line {
            id
            part {
              id
              title
              unit
            }
            item {
              id
              position
            }
            order {
              id
              number
              expectedOn
            }
            lots {
              id
              batch
            }
          }
        }
        coresOwed {
          quantity
          amount
          lot {
            id
            part {
              id
              title
              unit
            }
          }
          item {
            id
            position
          }
        }
      }
    }
  }
`);
