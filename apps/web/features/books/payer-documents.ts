import { graphql } from '../../graphql/document.ts';
import type { PayersOfOrderQuery } from '../../graphql/generated/graphql.ts';

export const PayersOfOrderDocument = graphql(`
  query PayersOfOrder($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        items {
          id
          position
          title
        }
        payers {
          id
          kind
          take
          percent
          amount
          deductible
          reference
          ended
          contact {
            id
            name
          }
          items {
            id
            position
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

export type OrderWithPayers = Extract<
  NonNullable<PayersOfOrderQuery['node']>,
  { __typename: 'WorkOrder' }
>;

export const ContactsDocument = graphql(`
  query Contacts {
    contacts {
      id
      name
      email
    }
  }
`);

export const AddContactDocument = graphql(`
  mutation AddContact($input: AddContactInput!) {
    result: addContact(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Contact {
        id
      }
    }
  }
`);

export const AddPayerShareDocument = graphql(`
  mutation AddPayerShare($input: AddPayerShareInput!) {
    result: addPayerShare(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on PayerShare {
        id
      }
    }
  }
`);

export const EndPayerShareDocument = graphql(`
  mutation EndPayerShare($input: EndPayerShareInput!) {
    result: endPayerShare(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on PayerShare {
        id
      }
    }
  }
`);
