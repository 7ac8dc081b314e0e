import { graphql } from '../../graphql/document.ts';
import type { PastWorkQuery } from '../../graphql/generated/graphql.ts';

export const PastWorkDocument = graphql(`
  query PastWork($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        pastWork {
          id
          title
          jasc
          order {
            number
          }
        }
      }
    }
  }
`);

export type PastWork = Extract<
  NonNullable<PastWorkQuery['node']>,
  { __typename: 'WorkOrder' }
>['pastWork'][number];

export const PutAtOurCostDocument = graphql(`
  mutation PutAtOurCost($input: PutAtOurCostInput!) {
    result: putAtOurCost(input: $input) {
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

export const AddWorkAtOurCostDocument = graphql(`
  mutation AddWorkAtOurCost($input: AddWorkAtOurCostInput!) {
    result: addWorkAtOurCost(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on WorkItem {
        id
      }
    }
  }
`);
