import { graphql } from '../../graphql/document.ts';

export const InvoicesToCreditDocument = graphql(`
  query InvoicesToCredit {
    invoicesToCredit {
      id
      number
      currency
      contact {
        id
        name
      }
      order {
        id
        aircraft {
          id
          registration
        }
      }
      coresToCredit {
        quantity
        amount
        line {
          id
          title
        }
      }
    }
  }
`);

export const CreditCoresDocument = graphql(`
  mutation CreditCores($input: CreditCoresInput!) {
    creditCores(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Invoice {
        id
        number
      }
    }
  }
`);

export const PayBackDocument = graphql(`
  mutation PayBack($input: PayBackInput!) {
    payBack(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Invoice {
        id
      }
    }
  }
`);
