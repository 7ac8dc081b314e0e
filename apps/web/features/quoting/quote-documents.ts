import { graphql } from '../../graphql/document.ts';
import './with-findings-fragment.ts';
import type { QuoteSheetQuery } from '../../graphql/generated/graphql.ts';
// Its fragment.
import '../hangar/promise-shown.ts';

export const QuoteSheetDocument = graphql(`
  query QuoteSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on Quote {
        id
        number
        title
        more
        state
        createdAt
        aircraft {
          id
          registration
          model {
            maker
            name
            kind
            lengthMm
            spanMm
            heightMm
            parkedLengthMm
            parkedWidthMm
          }
          contacts {
            capacity
            mayAuthorise
            contact {
              id
              name
              phone
            }
          }
        }
        contact {
          id
          name
          phone
          email
        }
        package {
          id
          title
          tasks {
            task {
              id
            }
          }
        }
        endedExemptions
        finding {
          id
          number
          title
          state
          meaning
        }
        order {
          id
          number
        }
        revisions {
          revision
          draftedAt
          draftedBy {
            name
          }
          expiresOn
          terms
          modelNumber
          currency
          low
          likely
          p80
          high
          tax
          sentAt
          sentBy
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
          decisions {
            choice
            channel
            wordsShown
            ceiling
            decidedAt
            note
            contact {
              name
            }
            recordedBy {
              name
            }
          }
          lines {
            position
            pricing
            title
            quantity
            unitPrice
            low
            likely
            p80
            high
            limit
            charge
            cost
            percent
            cap
            pricedBy
            taxReason
            task {
              id
              jasc
            }
            part {
              id
              number
              title
              unit
            }
            hours {
              p10
              p50
              p80
              p90
            }
            learned {
              id
              words
              stillTrue
              by {
                id
                name
              }
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
  }
`);

/** Opens each revision's model: asked only when somebody wants to see it. */
export const AskedAgainDocument = graphql(`
  query AskedAgain($id: ID!) {
    node(id: $id) {
      __typename
      ... on Quote {
        id
        revisions {
          revision
          recomputed {
            fittedAt
            same
            sentence
          }
        }
      }
    }
  }
`);

export type QuoteSheetData = Extract<NonNullable<QuoteSheetQuery['node']>, { __typename: 'Quote' }>;
export type RevisionData = QuoteSheetData['revisions'][number];

export const QuotesDocument = graphql(`
  query Quotes($after: String) {
    quotes(first: 30, after: $after) {
      totalCount
      pageInfo {
        hasNextPage
        endCursor
      }
      edges {
        node {
          id
          number
          title
          state
          aircraft {
            registration
          }
          contact {
            name
          }
          finding {
            number
          }
          newest {
            revision
            expiresOn
            currency
            low
            likely
            p80
            high
          }
        }
      }
    }
  }
`);
