import { graphql } from '../../graphql/document.ts';
import type { BenchItemFragment, ForgottenFragment } from '../../graphql/generated/graphql.ts';

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
    stoppedHere {
      id
      notDone
      loose
      by {
        id
        name
      }
    }
    order {
      id
      number
      title
      agreed
      costSoFar
      beyondAuthority
      unclosedCount
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

graphql(`
  fragment Forgotten on ForgottenClock {
    startId
    why
    startedAt
    endedAt
    p99Hours
    suggestions {
      at
      kind
      what
    }
    person {
      id
      name
    }
    item {
      id
      title
      order {
        id
        number
        aircraft {
          id
          registration
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
          order {
            id
            costAhead {
              at
              cost
            }
          }
        }
        supervisedBy {
          id
          name
        }
      }
      supervised
      supervisors {
        id
        name
      }
      forgotten {
        ...Forgotten
      }
      items {
        ...BenchItem
      }
    }
  }
`);

export type BenchItem = BenchItemFragment;
export type BenchAnswer = NonNullable<ReturnType<NonNullable<(typeof BenchDocument)['__apiType']>>>;
export type Forgotten = ForgottenFragment;

/** The least that can be asked: every answer carries the shop's time. */
export const AnyoneDocument = graphql(`
  query Anyone {
    __typename
  }
`);

export const ClockManyDocument = graphql(`
  mutation ClockMany($input: ClockManyInput!) {
    result: clockMany(input: $input) {
      __typename
      ... on ClockAnswers {
        answers {
          clientEventId
          refusal
        }
        remarks {
          clientEventId
          words
        }
      }
      ... on Refusal {
        code
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
        code
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
        code
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
        code
        message
      }
    }
  }
`);
