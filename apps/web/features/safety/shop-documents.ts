import { graphql } from '../../graphql/document.ts';
import type { ShopToolsQuery, TaskChecklistsQuery } from '../../graphql/generated/graphql.ts';

export const ShopToolsDocument = graphql(`
  query ShopTools {
    tools {
      id
      kind
      name
      number
      goodUntil
      lapsed
      calibrations {
        dueOn
        words
        at
        by {
          id
          name
        }
      }
    }
  }
`);

export type ShopTool = ShopToolsQuery['tools'][number];

export const AddToolDocument = graphql(`
  mutation AddTool($input: AddToolInput!) {
    answer: addTool(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const CalibrateToolDocument = graphql(`
  mutation CalibrateTool($input: CalibrateToolInput!) {
    answer: calibrateTool(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const RetireToolDocument = graphql(`
  mutation RetireTool($input: RetireToolInput!) {
    answer: retireTool(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const TaskChecklistsDocument = graphql(`
  query TaskChecklists {
    tasks(first: 200) {
      edges {
        node {
          id
          title
          jasc
          checklist
          opening {
            id
            title
          }
        }
      }
    }
  }
`);

export type TaskWithList = TaskChecklistsQuery['tasks']['edges'][number]['node'];

export const SetChecklistDocument = graphql(`
  mutation SetChecklist($input: SetChecklistInput!) {
    answer: setChecklist(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const SetOpeningDocument = graphql(`
  mutation SetTaskOpening($taskId: ID!, $openingId: ID) {
    answer: setTaskOpening(taskId: $taskId, openingId: $openingId) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);
