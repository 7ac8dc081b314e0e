import { graphql } from '../../graphql/document.ts';
import type { AccountShownFragment, StatementQuery } from '../../graphql/generated/graphql.ts';

/** Where a payer stands. */
graphql(`
  fragment AccountShown on Account {
    contact {
      id
      name
    }
    currency
    ages {
      notDue
      to30
      to60
      to90
      over90
      total
    }
    held
    toPayBack
    balance
  }
`);

export const AccountsDocument = graphql(`
  query Accounts {
    accounts {
      payers {
        ...AccountShown
      }
      whole {
        ...AccountShown
      }
    }
  }
`);

export type AccountShown = AccountShownFragment;

export const StatementDocument = graphql(`
  query Statement($id: ID!, $from: Date, $until: Date) {
    node(id: $id) {
      __typename
      ... on Contact {
        id
        name
        statement(from: $from, until: $until) {
          currency
          from
          until
          opening
          closing
          entries {
            on
            words
            amount
            balance
            invoiceId
          }
          account {
            ...AccountShown
          }
          payBackOn {
            id
            number
            currency
            owed
          }
        }
      }
    }
  }
`);

export type Stated = Extract<NonNullable<StatementQuery['node']>, { __typename: 'Contact' }>;
