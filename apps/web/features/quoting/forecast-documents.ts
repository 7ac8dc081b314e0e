import { graphql } from '../../graphql/document.ts';
import './with-findings-fragment.ts';
// Its fragment.
import '../hangar/promise-shown.ts';

export const QuoteForecastDocument = graphql(`
  query QuoteForecast($input: QuoteForecastInput!) {
    quoteForecast(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on QuoteForecast {
        currency
        low
        likely
        p80
        high
        tax
        hours {
          p10
          p50
          p80
          p90
        }
        billedAs
        withFindings {
          ...WithFindingsOnSheet
        }
        promise {
          ...PromiseShown
        }
        lines {
          position
          pricing
          title
          taskId
          partId
          quantity
          unitPrice
          low
          likely
          p80
          high
          limit
          charge
          hours {
            p10
            p50
            p80
            p90
          }
          because {
            kind
            sentence
            hours
            factor
          }
        }
      }
    }
  }
`);

/** Whose speed a forecast can suppose. */
export const WhatIfPeopleDocument = graphql(`
  query WhatIfPeople {
    people {
      id
      name
      active
      roles
    }
  }
`);
