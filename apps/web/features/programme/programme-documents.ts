import { graphql } from '../../graphql/document.ts';
import type { AircraftRecordsQuery } from '../../graphql/generated/graphql.ts';

/** What falls due on an aircraft, and no more. */
export const AircraftDueDocument = graphql(`
  query AircraftDue($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        registration
        due {
          lines {
            itemId
            title
            state
            dueOn
            dueAtHundredths
            remainingHundredths
            remainingDays
            counts {
              counter
              dueAt
              remaining
            }
          }
        }
        deferred {
          findingId
          title
          because
          state
        }
      }
    }
  }
`);

export const AircraftRecordsDocument = graphql(`
  query AircraftRecords($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        registration
        serial
        model {
          id
          maker
          name
        }
        components {
          id
          title
          serial
        }
        draftQuotes {
          id
          number
          title
          revisions {
            id
            revision
          }
        }
        inspectionPackages {
          id
          title
          inspection
        }
        contacts {
          id
          capacity
          contact {
            id
            name
          }
        }
        due {
          tisHundredths
          lines {
            itemId
            kind
            title
            number
            revision
            source
            part
            quotable
            inspection
            state
            because
            dueOn
            dueAtHundredths
            remainingHundredths
            remainingDays
            counts {
              counter
              dueAt
              remaining
            }
            countsAsked
            projectedOn
            projectedFrom
            projectedTo
            lastOn
            lastAtHundredths
            repeats
            opening {
              id
              title
              standardHours
            }
          }
        }
        deferred {
          findingId
          orderId
          orderNumber
          number
          title
          class
          reason
          inoperative
          state
          because
          dueOn
          dueAtHundredths
          remainingHundredths
          remainingDays
          quotable
        }
        statusSheet {
          paragraph
          title
          note
          rows {
            what
            status
            last
            next
          }
        }
        proof {
          links
          head
          key
          proves
          doesNotProve
        }
        received {
          id
          shop
          sealedAt
          key
          compared
          links
          fault
          receivedAt
          receivedBy {
            id
            name
          }
          records(first: 200) {
            number
            kind
            leftOut
            text
            completedOn
            signature
          }
        }
      }
    }
  }
`);

export type AircraftOnRecord = Extract<
  NonNullable<AircraftRecordsQuery['node']>,
  { __typename: 'Aircraft' }
>;
export type DueLine = AircraftOnRecord['due']['lines'][number];
export type Deferred = AircraftOnRecord['deferred'][number];
export type StatusSection = AircraftOnRecord['statusSheet'][number];
export type Received = AircraftOnRecord['received'][number];

export const QuoteDueDocument = graphql(`
  mutation QuoteDue($input: QuoteDueInput!) {
    quoteDue(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Quote {
        id
      }
    }
  }
`);

export const AddDueToQuoteDocument = graphql(`
  mutation AddDueToQuote($input: AddDueToQuoteInput!) {
    addDueToQuote(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Quote {
        id
      }
    }
  }
`);

export const RecordDueEventDocument = graphql(`
  mutation RecordDueEvent($input: DueEventInput!) {
    recordDueEvent(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on DueItem {
        id
      }
    }
  }
`);

export const AddDueItemDocument = graphql(`
  mutation AddDueItem($input: AddDueItemInput!) {
    addDueItem(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on DueItem {
        id
      }
    }
  }
`);

export const MakeDueFeedDocument = graphql(`
  mutation MakeDueFeed($aircraftId: ID) {
    makeDueFeed(aircraftId: $aircraftId) {
      __typename
      ... on Refusal {
        message
      }
      ... on DueFeedAddress {
        path
      }
    }
  }
`);

export const SettleFindingDocument = graphql(`
  mutation SettleFinding($findingId: ID!, $words: String!) {
    settleFinding(findingId: $findingId, words: $words) {
      __typename
      ... on Refusal {
        message
      }
      ... on Finding {
        id
      }
    }
  }
`);
