import { graphql } from '../../graphql/document.ts';
import type { PriceListsQuery } from '../../graphql/generated/graphql.ts';

export const PriceListsDocument = graphql(`
  query PriceLists {
    markUpLists {
      id
      validFrom
      at
      by {
        id
        name
      }
      bands {
        costFrom
        percent
      }
    }
    suppliesRules {
      id
      percent
      cap
      validFrom
      at
      by {
        id
        name
      }
    }
    workKinds {
      id
      name
      tasks
    }
  }
`);

export type PriceLists = PriceListsQuery;

export const AddMarkUpDocument = graphql(`
  mutation AddMarkUp($input: AddMarkUpInput!) {
    addMarkUp(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export const AddSuppliesRuleDocument = graphql(`
  mutation AddSuppliesRule($input: AddSuppliesRuleInput!) {
    addSuppliesRule(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export const AddWorkKindDocument = graphql(`
  mutation AddWorkKind($input: AddWorkKindInput!) {
    addWorkKind(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export const TaskKindsDocument = graphql(`
  query TaskKinds {
    tasks(first: 500) {
      edges {
        node {
          id
          title
          jasc
          workKind {
            id
            name
          }
        }
      }
    }
  }
`);

export const SetTaskKindDocument = graphql(`
  mutation SetTaskKind($input: SetTaskKindInput!) {
    setTaskKind(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);
