import { graphql } from '../../graphql/document.ts';

export const DraftQuoteDocument = graphql(`
  mutation DraftQuote($input: DraftQuoteInput!) {
    draftQuote(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Quote {
        id
        newest {
          revision
        }
      }
    }
  }
`);

export const ReviseQuoteDocument = graphql(`
  mutation ReviseQuote($input: ReviseQuoteInput!) {
    reviseQuote(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Quote {
        id
        newest {
          revision
        }
      }
    }
  }
`);

export const SendQuoteDocument = graphql(`
  mutation SendQuote($input: SendQuoteInput!) {
    sendQuote(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Quote {
        id
        state
      }
    }
  }
`);

export const RecordDecisionDocument = graphql(`
  mutation RecordDecision($input: RecordDecisionInput!) {
    recordDecision(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Quote {
        id
        state
      }
    }
  }
`);

export const TellFindingDocument = graphql(`
  mutation TellFinding($input: TellFindingInput!) {
    tellFinding(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);
