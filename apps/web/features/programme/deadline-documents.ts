import { graphql } from '../../graphql/document.ts';
import type { DeadlinesQuery } from '../../graphql/generated/graphql.ts';

export const DeadlinesDocument = graphql(`
  query Deadlines {
    deadlines {
      id
      kind
      title
      detail
      dueAt
      dueOn
      state
      doneAt
      doneBy
      doneWords
      orderId
    }
    orders(first: 50) {
      edges {
        node {
          id
          number
          title
          state
          aircraft {
            id
            registration
          }
        }
      }
    }
  }
`);
export type Deadline = DeadlinesQuery['deadlines'][number];
export type OrderKnown = DeadlinesQuery['orders']['edges'][number]['node'];

export const PressingDocument = graphql(`
  query DeadlinesPressing {
    deadlines {
      id
      kind
      title
      state
    }
  }
`);

export const NoteDutyDocument = graphql(`
  mutation NoteDuty($input: NoteDutyInput!) {
    noteDuty(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Duty {
        id
      }
    }
  }
`);

export const DoDutyDocument = graphql(`
  mutation DoDuty($dutyId: ID!, $words: String!) {
    doDuty(dutyId: $dutyId, words: $words) {
      __typename
      ... on Refusal {
        message
      }
      ... on Duty {
        id
      }
    }
  }
`);

export const AddDataSourceDocument = graphql(`
  mutation AddDataSource($title: String!, $everyDays: Int!, $revision: String!) {
    addDataSource(title: $title, everyDays: $everyDays, revision: $revision) {
      __typename
      ... on Refusal {
        message
      }
      ... on DataSource {
        id
      }
    }
  }
`);

export const CheckDataDocument = graphql(`
  mutation CheckData($sourceId: ID!, $revision: String!) {
    checkData(sourceId: $sourceId, revision: $revision) {
      __typename
      ... on Refusal {
        message
      }
      ... on DataSource {
        id
      }
    }
  }
`);
