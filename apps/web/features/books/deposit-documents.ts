import { graphql } from '../../graphql/document.ts';
import type { DepositsOfOrderQuery } from '../../graphql/generated/graphql.ts';

export const DepositsOfOrderDocument = graphql(`
  query DepositsOfOrder($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        depositsLeft
        deposits {
          id
          number
          currency
          amount
          method
          paidAt
          left
          contact {
            id
            name
          }
          setAgainst {
            id
            amount
            invoice {
              id
              number
            }
          }
          refunds {
            id
            amount
          }
        }
        invoices {
          id
          state
          credits {
            id
          }
        }
      }
    }
  }
`);

export type OrderWithDeposits = Extract<
  NonNullable<DepositsOfOrderQuery['node']>,
  { __typename: 'WorkOrder' }
>;
export type Deposit = OrderWithDeposits['deposits'][number];

export const TakeDepositDocument = graphql(`
  mutation TakeDeposit($input: TakeDepositInput!) {
    takeDeposit(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Deposit {
        id
      }
    }
  }
`);

export const RefundDepositDocument = graphql(`
  mutation RefundDeposit($input: RefundDepositInput!) {
    refundDeposit(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Deposit {
        id
      }
    }
  }
`);
