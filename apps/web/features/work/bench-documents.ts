import { graphql } from '../../graphql/generated/gql.ts';
import type { BenchItemFragment, ItemSheetQuery } from '../../graphql/generated/graphql.ts';

graphql(`
  fragment BenchItem on WorkItem {
    id
    position
    title
    critical
    state
    waitingFor
    cautions
    cautionsRead
    secondsWorked
    runningBy {
      id
      name
    }
    order {
      id
      number
      title
      agreed
      costSoFar
      beyondAuthority
      aircraft {
        id
        registration
        model {
          id
          kind
          lengthMm
          spanMm
          heightMm
          parkedLengthMm
          parkedWidthMm
        }
      }
    }
  }
`);

export const BenchDocument = graphql(`
  query Bench {
    bench {
      running {
        id
        startedAt
        item {
          ...BenchItem
        }
      }
      items {
        ...BenchItem
      }
    }
  }
`);

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

export type BenchItem = BenchItemFragment;
export type ItemOnSheet = Extract<ItemSheetQuery['node'], { __typename: 'WorkItem' }>;

export const ClockDocument = graphql(`
  mutation Clock($input: ClockInput!) {
    result: clock(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const ReadCautionsDocument = graphql(`
  mutation ReadCautions($input: ItemInput!) {
    result: readCautions(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const NoteFindingDocument = graphql(`
  mutation NoteFinding($input: NoteFindingInput!) {
    result: noteFinding(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const AddFindingPhotoDocument = graphql(`
  mutation AddFindingPhoto($input: AddFindingPhotoInput!) {
    result: addFindingPhoto(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

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
