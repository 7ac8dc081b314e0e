import { graphql } from '../../graphql/document.ts';
import type { BooksQuery, InvoiceOnSheetFragment } from '../../graphql/generated/graphql.ts';

/** Invoices, the last drafted first, in pages. */
export const BooksDocument = graphql(`
  query Books($after: String) {
    invoices(first: 50, after: $after) {
      totalCount
      pageInfo {
        hasNextPage
        endCursor
      }
      edges {
        node {
          id
          number
          state
          currency
          net
          gross
          owed
          draftedAt
          issuedAt
          dueOn
          contact {
            id
            name
          }
          credits {
            id
            number
          }
          order {
            id
            number
            title
            aircraft {
              id
              registration
            }
          }
        }
      }
    }
  }
`);

export type InvoiceInBooks = BooksQuery['invoices']['edges'][number]['node'];

/** Orders that may have something to bill. */
export const OrdersToBillDocument = graphql(`
  query OrdersToBill {
    orders(first: 100, states: [here, ready_to_sign, released]) {
      pageInfo {
        hasNextPage
      }
      edges {
        node {
          id
          number
          title
          state
          agreed
          costSoFar
          beyondAuthority
          items {
            id
            state
            waitingFor
            runningBy {
              id
              initials
            }
          }
          findings {
            id
            state
          }
          aircraft {
            id
            registration
          }
          invoices {
            id
            state
            sale {
              id
            }
            credits {
              id
            }
          }
        }
      }
    }
  }
`);

export const InvoiceSheetDocument = graphql(`
  query InvoiceSheet($id: ID!) {
    node(id: $id) {
      __typename
      ...InvoiceOnSheet
    }
  }

  fragment InvoiceOnSheet on Invoice {
    id
    number
    state
    currency
    net
    tax
    rounding
    gross
    payerShare {
      id
      kind
      reference
    }
    sale {
      id
      soldOn
      buyer {
        name
      }
    }
    agreed
    beyond
    paid
    owed
    quoted
    draftedAt
    issuedAt
    dueOn
    chainHash
    eInvoiceLacks
    contact {
      id
      name
      email
      phone
      postalAddress {
        line1
        line2
        city
        postcode
        country
      }
    }
    order {
      id
      number
      title
      state
      outcome
      invoices {
        id
        number
        state
        gross
        contact {
          name
        }
        sale {
          id
        }
        credits {
          id
        }
      }
      aircraft {
        id
        registration
        serial
        model {
          maker
          name
        }
      }
    }
    lines {
      id
      position
      title
      category
      quantity
      unit
      unitPrice
      net
      taxCode
      taxRate
      taxReason
      note
    }
    inPart
    endedExemptions
    coresToCredit {
      quantity
      amount
      line {
        id
        title
      }
    }
    difference {
      kind
      title
      amount
    }
    differenceEvidence {
      sentences
    }
    payments {
      id
      amount
      method
      paidAt
      deposit {
        id
      }
    }
    credits {
      id
      number
    }
    creditNotes {
      id
      number
      gross
      inPart
    }
  }
`);

export type Invoice = InvoiceOnSheetFragment;

export const SetContactAddressDocument = graphql(`
  mutation SetContactAddress($input: SetContactAddressInput!) {
    setContactAddress(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Contact {
        id
      }
    }
  }
`);

export const SendInvoiceDocument = graphql(`
  mutation SendInvoice($input: SendInvoiceInput!) {
    sendInvoice(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Mail {
        id
        to
      }
    }
  }
`);

export const DraftInvoiceDocument = graphql(`
  mutation DraftInvoice($input: DraftInvoiceInput!) {
    draftInvoice(input: $input) {
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

export const IssueInvoiceDocument = graphql(`
  mutation IssueInvoice($input: IssueInvoiceInput!) {
    issueInvoice(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Invoice {
        id
        number
      }
    }
  }
`);

export const RecordPaymentDocument = graphql(`
  mutation RecordPayment($input: RecordPaymentInput!) {
    recordPayment(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Invoice {
        id
        owed
      }
    }
  }
`);

export const CreditInvoiceDocument = graphql(`
  mutation CreditInvoice($input: CreditInvoiceInput!) {
    creditInvoice(input: $input) {
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
