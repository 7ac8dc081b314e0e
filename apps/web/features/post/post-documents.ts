import { graphql } from '../../graphql/document.ts';
import type { MailOnSheetFragment } from '../../graphql/generated/graphql.ts';

export const PostDocument = graphql(`
  query Post($after: String) {
    sendsMail
    open: mails(first: 100, open: true) {
      totalCount
      edges {
        node {
          ...MailOnSheet
        }
      }
    }
    mails(first: 30, after: $after) {
      totalCount
      pageInfo {
        hasNextPage
        endCursor
      }
      edges {
        node {
          ...MailOnSheet
        }
      }
    }
  }

  fragment MailOnSheet on Mail {
    id
    to
    toName
    subject
    text
    about
    state
    queuedAt
    queuedBy {
      id
      name
    }
    quote {
      id
    }
    invoice {
      id
    }
    papers {
      id
      filename
      url
    }
    events {
      id
      kind
      at
      words
      nextAt
      by {
        id
        name
      }
    }
  }
`);

export type MailOnSheet = MailOnSheetFragment;

export const MailsFailedDocument = graphql(`
  query MailsFailed {
    mailsFailed
  }
`);

export const TryMailAgainDocument = graphql(`
  mutation TryMailAgain($mailId: ID!) {
    tryMailAgain(mailId: $mailId) {
      __typename
      ... on Refusal {
        message
      }
      ... on Mail {
        id
      }
    }
  }
`);

export const PutMailAwayDocument = graphql(`
  mutation PutMailAway($mailId: ID!) {
    putMailAway(mailId: $mailId) {
      __typename
      ... on Refusal {
        message
      }
      ... on Mail {
        id
      }
    }
  }
`);

export const SetContactEmailDocument = graphql(`
  mutation SetContactEmail($input: SetContactEmailInput!) {
    setContactEmail(input: $input) {
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
