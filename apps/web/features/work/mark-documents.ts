import { graphql } from '../../graphql/document.ts';

export const MarkPhotoDocument = graphql(`
  mutation MarkPhoto($input: MarkPhotoInput!) {
    answer: markPhoto(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);
