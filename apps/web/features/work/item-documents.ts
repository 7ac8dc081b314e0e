import { graphql } from '../../graphql/document.ts';
import type { ItemSheetQuery } from '../../graphql/generated/graphql.ts';
// Its fragment.
import './bench-documents.ts';

export const ItemSheetDocument = graphql(`
  query ItemSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkItem {
        ...BenchItem
        jasc
        reference
        plannedAccess {
          id
          clearanceMm
          sight
          posture
          reach
          swingDeg
          held
          lockedFasteners
        }
        findings {
          id
          number
          title
          photos {
            id
            url
            largeUrl
            middleUrl
            thumbUrl
            width
            height
            words
          }
        }
        events {
          id
          kind
          waitingFor
          workDone
          note
          at
          by {
            id
            name
          }
        }
        parts {
          quantity
          lot {
            id
            batch
            part {
              title
              unit
            }
          }
        }
        stretches {
          id
          startedAt
          endedAt
          seconds
          person {
            id
            name
          }
          began {
            id
            kind
          }
          ended {
            id
            kind
            item {
              id
              title
            }
          }
        }
      }
    }
  }
`);

export type ItemOnSheet = Extract<ItemSheetQuery['node'], { __typename: 'WorkItem' }>;

export const FinishItemDocument = graphql(`
  mutation FinishItem($input: FinishItemInput!) {
    result: finishItem(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export const CorrectClockDocument = graphql(`
  mutation CorrectClock($input: CorrectClockInput!) {
    result: correctClock(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const PutOffItemDocument = graphql(`
  mutation PutOffItem($input: ItemReasonInput!) {
    result: putOffItem(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const WaitItemDocument = graphql(`
  mutation WaitItem($input: WaitItemInput!) {
    result: waitItem(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const ResumeItemDocument = graphql(`
  mutation ResumeItem($input: ItemInput!) {
    result: resumeItem(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const ReopenItemDocument = graphql(`
  mutation ReopenItem($input: ItemReasonInput!) {
    result: reopenItem(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const SecondLookDocument = graphql(`
  mutation SecondLook($input: InitialItemInput!) {
    result: initialItem(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);
