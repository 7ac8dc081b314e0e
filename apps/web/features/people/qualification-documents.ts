import { graphql } from '../../graphql/document.ts';
import type { QualificationsQuery } from '../../graphql/generated/graphql.ts';

export const QualificationsDocument = graphql(`
  query Qualifications {
    qualifications {
      __typename
      ... on Refusal {
        message
      }
      ... on QueryQualificationsSuccess {
        data {
          id
          kind
          about
          validFrom
          validUntil
          paper
          withdrawn
          at
          by {
            name
          }
          person {
            id
            name
          }
        }
      }
    }
    kindsOfWorkToApprove {
      key
      title
    }
  }
`);
export type Qualification = Extract<
  QualificationsQuery['qualifications'],
  { __typename: 'QueryQualificationsSuccess' }
>['data'][number];

export const StateQualificationDocument = graphql(`
  mutation StateQualification($input: StateQualificationInput!) {
    stateQualification(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Qualification {
        id
      }
    }
  }
`);

export const WithdrawQualificationDocument = graphql(`
  mutation WithdrawQualification($id: ID!, $words: String!) {
    withdrawQualification(qualificationId: $id, words: $words) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Qualification {
        id
      }
    }
  }
`);
