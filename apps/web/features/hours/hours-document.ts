import { graphql } from '../../graphql/document.ts';
import type {
  HoursAccuracyQuery,
  HoursDeskQuery,
  HoursMissesQuery,
  HoursQuery,
} from '../../graphql/generated/graphql.ts';

/** What the estimates stand on, for the Hours sheet. */
export const HoursDocument = graphql(`
  query Hours {
    hindsight {
      byTask {
        task
        title
        standardHours
        jobs
        lowerBounds
        medianHours
        lastOn
      }
      imports(first: 50) {
        edges {
          node {
            id
            fileName
            rows
            already
            refused
            importedAt
            importedBy {
              name
            }
          }
        }
      }
    }
  }
`);

/** How the estimates did, of all that was finished or of what the address asks for. */
export const AccuracyDocument = graphql(`
  query HoursAccuracy($filter: AccuracyFilter) {
    hoursAccuracy(filter: $filter) {
      coverage {
        items
        within
        sentence
      }
      ratio {
        median
        low
        high
      }
      months {
        month
        coverage {
          items
          within
          low
          high
          verdict
        }
      }
      byTask {
        key
        name
        coverage {
          items
          within
          verdict
        }
        ratio {
          median
        }
      }
      byModel {
        key
        name
        coverage {
          items
          within
          verdict
        }
        ratio {
          median
        }
      }
      points {
        p10
        p50
        p90
        actual
      }
      tasks {
        key
        name
      }
      models {
        key
        name
      }
      everyMonth
    }
  }
`);

/** A page of the biggest misses. */
export const MissesDocument = graphql(`
  query HoursMisses($filter: AccuracyFilter, $after: String) {
    hoursAccuracy(filter: $filter) {
      misses(first: 12, after: $after) {
        edges {
          node {
            itemId
            orderId
            title
            orderNumber
            registration
            model
            doneAt
            p10
            p50
            p80
            p90
            actual
            reason
          }
        }
        pageInfo {
          hasNextPage
          endCursor
        }
      }
    }
  }
`);

/** The history file on the desk. */
export const DeskDocument = graphql(`
  query HoursDesk {
    hindsight {
      upload {
        id
        fileName
        size
        uploadedAt
        uploadedBy
        state
        problem
        goodRows
        alreadyRows
        refusedRows
        refusals
        firstRefusals {
          line
          column
          value
          problem
          remedy
        }
        refusedFile
        savedRows
        standsStill
        addedRows
      }
    }
  }
`);

export const TakeInDocument = graphql(`
  mutation TakeInHistory($uploadId: ID!) {
    result: takeInHistory(uploadId: $uploadId) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const PutAwayDocument = graphql(`
  mutation PutAwayHistory($uploadId: ID!) {
    result: putAwayHistory(uploadId: $uploadId) {
      __typename
      ... on HistoryPutAway {
        takenIn
        added
      }
      ... on Refusal {
        message
      }
    }
  }
`);

export type Hindsight = HoursQuery['hindsight'];
export type Accuracy = HoursAccuracyQuery['hoursAccuracy'];
export type Point = Accuracy['points'][number];
export type Month = Accuracy['months'][number];
export type Group = Accuracy['byTask'][number];
export type Miss = NonNullable<
  HoursMissesQuery['hoursAccuracy']['misses']['edges'][number]
>['node'];
export type OnDesk = NonNullable<HoursDeskQuery['hindsight']['upload']>;
