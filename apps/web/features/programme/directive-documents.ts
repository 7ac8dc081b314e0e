import { graphql } from '../../graphql/document.ts';
import type { AircraftDirectivesQuery, DirectivesQuery } from '../../graphql/generated/graphql.ts';

export const AircraftDirectivesDocument = graphql(`
  query AircraftDirectives($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        directives {
          componentId
          part
          found
          because
          decision {
            binds
            reason
            found
            at
            by
            itemId
          }
          directive {
            id
            kind
            authority
            number
            revision
            revisedOn
            effectiveOn
            subject
            method
            terms
            countsAsked
            terminating
            supersededBy {
              id
              number
            }
          }
        }
      }
    }
  }
`);
export type DirectiveLine = Extract<
  NonNullable<AircraftDirectivesQuery['node']>,
  { __typename: 'Aircraft' }
>['directives'][number];

export const DirectivesDocument = graphql(`
  query Directives {
    directives {
      id
      kind
      authority
      number
      revision
      revisedOn
      effectiveOn
      subject
      method
      terms
      terminating
      supersededBy {
        id
        number
      }
      reaches {
        id
        partNumber
        serials
        model {
          id
          maker
          name
        }
      }
      aircraft {
        found
        part
        decision {
          binds
        }
        aircraft {
          id
          registration
        }
      }
    }
    aircraft(first: 200) {
      edges {
        node {
          id
          model {
            id
            maker
            name
          }
        }
      }
    }
  }
`);
export type DirectiveEntered = DirectivesQuery['directives'][number];
export type ModelKnown = DirectivesQuery['aircraft']['edges'][number]['node']['model'];

export const AddDirectiveDocument = graphql(`
  mutation AddDirective($input: AddDirectiveInput!) {
    addDirective(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Directive {
        id
      }
    }
  }
`);

export const DecideDirectiveDocument = graphql(`
  mutation DecideDirective($input: DecideDirectiveInput!) {
    decideDirective(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Directive {
        id
      }
    }
  }
`);
