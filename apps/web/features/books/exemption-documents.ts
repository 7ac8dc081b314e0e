import { graphql } from '../../graphql/document.ts';
import type { ExemptionShownFragment, ExemptionsQuery } from '../../graphql/generated/graphql.ts';

graphql(`
  fragment ExemptionShown on TaxExemption {
    id
    category
    from
    until
    reason
    url
    name
    holds
    endedBecause
    by {
      id
      name
    }
  }
`);

export type ExemptionShown = ExemptionShownFragment;

/** The exemptions of a payer and of their aircraft. */
export const ExemptionsDocument = graphql(`
  query Exemptions($id: ID!) {
    node(id: $id) {
      __typename
      ... on Contact {
        id
        name
        exemptions {
          ...ExemptionShown
        }
        aircraft {
          id
          registration
          exemptions {
            ...ExemptionShown
          }
        }
      }
    }
  }
`);

export type ExemptPayer = Extract<NonNullable<ExemptionsQuery['node']>, { __typename: 'Contact' }>;

export const EndExemptionDocument = graphql(`
  mutation EndExemption($input: EndExemptionInput!) {
    endExemption(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on TaxExemption {
        id
      }
    }
  }
`);
