import { graphql } from '../../graphql/document.ts';

export const MayBeDocument = graphql(`
  query MayBe($id: ID!) {
    node(id: $id) {
      __typename
      ... on Finding {
        id
        number
        title
        state
        symptom
        order {
          id
          number
          aircraft {
            id
            registration
            model {
              id
              kind
            }
          }
        }
        turnedOut {
          id
          says
          at
          by {
            id
            name
          }
        }
        suggestion {
          symptom
          symptomWords
          standing
          says
          restsOn
          leak
          cautions
          seen {
            question
            asks
            answer
            words
            fromOrders
          }
          doneBefore {
            title
            at
          }
          causes(first: 5) {
            cause
            name
            kind
            probability
            why
            source
            remedy
            workTitle
            workJasc
            tasks {
              id
              title
            }
            reasons {
              speaks
              sentence
              source
            }
          }
          next(first: 4) {
            question
            asks
            kind
            how
            minutes
            outcomes {
              answer
              words
              pointsTo
              pointsProbability
            }
            cautions
          }
        }
      }
    }
  }
`);

export const MayHaveBeenDocument = graphql(`
  query MayHaveBeen($id: ID!) {
    node(id: $id) {
      __typename
      ... on Finding {
        id
        suggestion {
          symptom
          causes(first: 60) {
            cause
            name
            kind
          }
        }
      }
    }
  }
`);

export const SeeFindingDocument = graphql(`
  mutation SeeFinding($input: SeeFindingInput!) {
    result: seeFinding(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const SayOutcomeDocument = graphql(`
  mutation SayOutcome($input: SayOutcomeInput!) {
    result: sayOutcome(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const WorkHoursDocument = graphql(`
  query WorkHours($taskId: ID!, $aircraftId: ID!) {
    estimateTask(taskId: $taskId, aircraftId: $aircraftId) {
      __typename
      ... on Refusal {
        message
      }
      ... on Estimate {
        p10
        p50
        p80
        p90
      }
    }
  }
`);
