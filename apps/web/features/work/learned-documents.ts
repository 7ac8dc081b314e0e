import { graphql } from '../../graphql/document.ts';
// Its fragment.
import '../../components/photo-fragment.ts';

graphql(`
  fragment Learned on LearnedNote {
    id
    words
    at
    clientEventId
    stillTrue
    judgedAt
    judgedBy {
      id
      name
    }
    model {
      id
      name
    }
    by {
      id
      name
    }
    photos {
      ...PhotoShown
    }
  }
`);

export const LearnNoteDocument = graphql(`
  mutation LearnNote($input: LearnNoteInput!) {
    result: learnNote(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const JudgeNoteDocument = graphql(`
  mutation JudgeNote($input: JudgeNoteInput!) {
    result: judgeNote(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);
