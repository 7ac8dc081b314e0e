import { graphql } from '../../../graphql/document.ts';
import type { OddTimesQuery } from '../../../graphql/generated/graphql.ts';

graphql(`
  fragment Watched on WatchedTime {
    id
    own
    itemId
    orderId
    orderNumber
    title
    task
    completedOn
    registration
    model
    mechanics
    hours
    proposal {
      p10
      p50
      p90
      weight
      reasons {
        kind
        words
        otherTask
      }
    }
    decisions {
      verdict
      hours
      task
      reason
      decidedAt
      decidedBy
      proposed
    }
  }
`);

/** Times that look odd, those decided about, and the tasks that they might have been. */
export const OddTimesDocument = graphql(`
  query OddTimes {
    oddTimes {
      __typename
      ... on OddTimes {
        model {
          number
          items
          odd
        }
        proposed {
          ...Watched
        }
        decided {
          ...Watched
        }
      }
      ... on Refusal {
        message
      }
    }
    hindsight {
      byTask {
        task
        title
      }
    }
  }
`);

export const DecideTimeDocument = graphql(`
  mutation DecideTime($input: DecideTimeInput!) {
    result: decideTime(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export type OddTimes = Extract<OddTimesQuery['oddTimes'], { __typename: 'OddTimes' }>;
export type Watched = OddTimes['proposed'][number];
export type Verdict = Watched['decisions'][number]['verdict'];
export type Tasks = OddTimesQuery['hindsight']['byTask'];
