import { graphql } from '../../graphql/document.ts';
import type { BenchItemFragment } from '../../graphql/generated/graphql.ts';

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

export type BenchItem = BenchItemFragment;

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
