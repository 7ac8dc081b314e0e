import { graphql } from '../../graphql/document.ts';

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
