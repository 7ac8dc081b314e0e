import { graphql } from '../../graphql/document.ts';
import type { EntryDraftQuery, EntryOnSheetFragment } from '../../graphql/generated/graphql.ts';

graphql(`
  fragment EntryOnSheet on RecordEntry {
    id
    rule
    inspection
    text
    completedOn
    tisHundredths
    outcome
    signature
    signedAt
    certificateKind
    certificateNumber
    chainHash
    proof {
      number
      hash
      key
    }
    cautions
    book {
      id
      kind
      title
    }
    corrects {
      id
      signedAt
    }
    corrections {
      id
      signedAt
      signedBy {
        name
      }
    }
    discrepancies {
      id
    }
  }
`);

export type Entry = EntryOnSheetFragment;

export const EntryDraftDocument = graphql(`
  query EntryDraft(
    $orderId: ID!
    $bookId: ID!
    $outcome: ReleaseOutcome
    $extent: String
    $leaveOut: [ID!]
    $correctsId: ID
    $reason: String
  ) {
    entryDraft(
      orderId: $orderId
      bookId: $bookId
      outcome: $outcome
      extent: $extent
      leaveOut: $leaveOut
      correctsId: $correctsId
      reason: $reason
    ) {
      __typename
      ... on Refusal {
        message
      }
      ... on EntryDraft {
        rule
        text
        described
        completedOn
        tisHundredths
        mayApprove
        because
        signer
        choice
        cautions
        items {
          itemId
          position
          title
        }
        missing {
          paragraph
          what
          remedy
        }
      }
    }
  }
`);

export type EntryDraft = Extract<EntryDraftQuery['entryDraft'], { __typename: 'EntryDraft' }>;

export const EntrySheetDocument = graphql(`
  query EntrySheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on RecordEntry {
        ...EntryOnSheet
        order {
          id
          number
          title
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
      }
    }
  }
`);
