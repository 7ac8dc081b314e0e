import { graphql } from '../../graphql/document.ts';
// The fragment.
import './bench-documents.ts';

/** Everybody's clocks that look forgotten. */
export const ForgottenClocksDocument = graphql(`
  query ForgottenClocks {
    forgottenClocks {
      __typename
      ... on ForgottenClocks {
        clocks {
          ...Forgotten
        }
      }
      ... on Refusal {
        code
        message
      }
    }
  }
`);

/** Hours worked, under supervision and overseen. */
export const PracticeDocument = graphql(`
  query Practice($from: Date!, $to: Date!) {
    practiceRecord(from: $from, to: $to) {
      __typename
      ... on PracticeRecord {
        people {
          name
          worked
          supervised
          overseen
        }
      }
      ... on Refusal {
        code
        message
      }
    }
  }
`);
