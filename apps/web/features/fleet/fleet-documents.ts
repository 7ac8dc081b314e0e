import { graphql } from '../../graphql/document.ts';
import type { AnswersForQuery } from '../../graphql/generated/graphql.ts';

export const ModelsOfShopDocument = graphql(`
  query ModelsOfShop {
    models {
      id
      maker
      name
      kind
    }
  }
`);

export const AddModelDocument = graphql(`
  mutation AddModel($input: AddModelInput!) {
    answer: addModel(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on AircraftModel {
        id
      }
    }
  }
`);

export const AddAircraftDocument = graphql(`
  mutation AddAircraft($input: AddAircraftInput!) {
    answer: addAircraft(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Aircraft {
        id
      }
    }
  }
`);

export const AnswersForDocument = graphql(`
  query AnswersFor($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        registration
        contacts {
          capacity
          mayAuthorise
          contact {
            id
            name
            email
            phone
          }
        }
      }
    }
  }
`);

export type AnswersFor = Extract<AnswersForQuery['node'], { __typename: 'Aircraft' }>;

export const NameContactDocument = graphql(`
  mutation NameContact($input: NameContactInput!) {
    answer: nameContact(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const EndStandingDocument = graphql(`
  mutation EndStanding($input: EndStandingInput!) {
    answer: endStanding(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);
