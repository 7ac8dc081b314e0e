import { graphql } from '../../graphql/document.ts';
import type { FindingToQuoteQuery } from '../../graphql/generated/graphql.ts';

export const FindingToQuoteDocument = graphql(`
  query FindingToQuote($id: ID!) {
    node(id: $id) {
      __typename
      ... on Finding {
        id
        number
        title
        meaning
        order {
          id
          number
          aircraft {
            id
          }
        }
      }
    }
  }
`);

export const TaskToQuoteDocument = graphql(`
  query TaskToQuote($id: ID!) {
    node(id: $id) {
      __typename
      ... on Task {
        id
        title
        jasc
      }
    }
  }
`);

export type FindingToQuote = Extract<
  NonNullable<FindingToQuoteQuery['node']>,
  { __typename: 'Finding' }
>;
