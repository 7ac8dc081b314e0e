import { graphql } from '../../graphql/document.ts';

export const InoperativeQuestionsDocument = graphql(`
  query InoperativeQuestions {
    inoperativeQuestions {
      key
      paragraph
      asks
    }
  }
`);

export const LeaveInoperativeDocument = graphql(`
  mutation LeaveInoperative($input: LeaveInoperativeInput!) {
    leaveInoperative(input: $input) {
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

export const WithdrawInoperativeDocument = graphql(`
  mutation WithdrawInoperative($findingId: ID!, $words: String!) {
    withdrawInoperative(findingId: $findingId, words: $words) {
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
