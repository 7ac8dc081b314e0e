import { graphql } from '../../../graphql/document.ts';
import type {
  OutsideJobFragment,
  OutsideOfOrderQuery,
} from '../../../graphql/generated/graphql.ts';

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

  fragment OutsideJob on OutsideJob {
    id
    number
    vendor
    what
    partNumber
    serial
    sentAt
    promisedOn
    promisedBy
    overdue
    returnedAt
    returnedBy {
      name
    }
    tag
    withoutTag
    documents {
      id
      url
      name
      mime
    }
    bills {
      id
      reference
      cost
      charge {
        id
        amount
        ended
      }
      quoteLine {
        title
      }
    }
  }
`);

export type OrderOutside = Extract<
  NonNullable<OutsideOfOrderQuery['node']>,
  { __typename: 'WorkOrder' }
>;
export type OutsideJob = OutsideJobFragment;

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
