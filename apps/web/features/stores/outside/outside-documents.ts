import { graphql } from '../../../graphql/document.ts';
import type { OutsideOfOrderQuery } from '../../../graphql/generated/graphql.ts';
// Its fragment.
import './outside-job.ts';

export const OutsideOfOrderDocument = graphql(`
  query OutsideOfOrder($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        items {
          id
          position
          title
          state
          outside {
            ...OutsideJob
          }
        }
        quotes {
          state
          newest {
            lines {
              id
              title
              charge
              likely
            }
          }
        }
      }
    }
  }
`);

export type OrderOutside = Extract<
  NonNullable<OutsideOfOrderQuery['node']>,
  { __typename: 'WorkOrder' }
>;

export const OutsideWorkDocument = graphql(`
  query OutsideWork {
    outsideWork {
      ...OutsideJob
      item {
        title
        order {
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

export const SendOutDocument = graphql(`
  mutation SendOut($input: SendOutInput!) {
    result: sendOut(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on OutsideJob {
        id
      }
    }
  }
`);

export const PromiseBackDocument = graphql(`
  mutation PromiseBack($input: PromiseBackInput!) {
    result: promiseBack(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on OutsideJob {
        id
      }
    }
  }
`);

export const ReturnOutsideDocument = graphql(`
  mutation ReturnOutside($input: ReturnOutsideInput!) {
    result: returnOutside(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on OutsideJob {
        id
      }
    }
  }
`);

export const BillOutsideDocument = graphql(`
  mutation BillOutside($input: BillOutsideInput!) {
    result: billOutside(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on OutsideJob {
        id
      }
    }
  }
`);
