import { graphql } from '../../graphql/document.ts';
import type { ItemSheetQuery } from '../../graphql/generated/graphql.ts';
// Their fragments.
import '../../components/photo-fragment.ts';
import './bench-documents.ts';
import './learned-documents.ts';

graphql(`
  fragment ItemSheet on WorkItem {
    ...BenchItem
    stoppedHere {
      id
      done
      at
    }
    checklist {
      number
      words
      initials
      by
      at
    }
    jasc
    reference
    task {
      id
    }
    learned {
      ...Learned
    }
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
    finding {
      id
      number
      title
      symptom
      clientEventId
      photos {
        ...PhotoShown
      }
      photoPairs {
        beforeId
        afterId
      }
    }
    findings {
      id
      number
      title
      photos {
        ...PhotoShown
      }
      photoPairs {
        beforeId
        afterId
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
      answeredFor
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
        apprentice
      }
      supervisedBy {
        id
        name
      }
    }
  }
`);

/** Of the stretches, what began and ended each is asked for as well: it is looked up one by one. */
export const ItemSheetDocument = graphql(`
  query ItemSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkItem {
        ...ItemSheet
        stretches {
          id
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

/** The sheets of all items on the bench, to be kept on the device. */
export const BenchSheetsDocument = graphql(`
  query BenchSheets {
    bench {
      items {
        __typename
        ...ItemSheet
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
        code
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
        code
        message
      }
    }
  }
`);

export const AnswerForgottenClockDocument = graphql(`
  mutation AnswerForgottenClock($input: AnswerForgottenClockInput!) {
    result: answerForgottenClock(input: $input) {
      __typename
      ... on Refusal {
        code
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
        code
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
        code
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
        code
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
        code
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
        code
        message
      }
    }
  }
`);
