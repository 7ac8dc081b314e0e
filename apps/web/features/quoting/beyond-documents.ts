import { graphql } from '../../graphql/document.ts';

export const AskForMoreDocument = graphql(`
  mutation AskForMore($input: AskForMoreInput!) {
    answer: askForMore(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Quote {
        id
      }
    }
  }
`);

export const WriteOffDocument = graphql(`
  mutation WriteOff($input: WriteOffInput!) {
    answer: writeOff(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);
