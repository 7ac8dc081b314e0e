import { graphql } from '../../graphql/document.ts';
import type { PartSheetQuery } from '../../graphql/generated/graphql.ts';
import './stores-documents.ts';

export const PartSheetDocument = graphql(`
  query PartSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on Part {
        id
        number
        title
        unit
        unitPrice
        ownPrice
        pricedBy
        prices {
          id
          unitPrice
          validFrom
          at
          by {
            id
            name
          }
        }
        category
        coreCharge
        reorderPoint
        onHand
        free
        shortage
        instead {
          id
          kind
          source
          at
          by {
            id
            name
          }
          instead {
            id
            number
            title
          }
        }
        insteadOf {
          id
          kind
          part {
            id
            number
            title
          }
        }
        lots(first: 50) {
          pageInfo {
            hasNextPage
          }
          edges {
            node {
              ...LotOnShelf
            }
          }
        }
      }
    }
  }
`);

/** What a part that is not there, and what stands in for it, is said to be: asked where one is wanted. */
export const ShortageDocument = graphql(`
  query Shortage($id: ID!, $wanted: Decimal!) {
    node(id: $id) {
      ... on Part {
        id
        shortage(wanted: $wanted)
      }
    }
  }
`);

export const AddPartDocument = graphql(`
  mutation AddPart($input: AddPartInput!) {
    addPart(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Part {
        id
      }
    }
  }
`);

export const ChangePartDocument = graphql(`
  mutation ChangePart($input: ChangePartInput!) {
    changePart(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const RelatePartsDocument = graphql(`
  mutation RelateParts($input: RelatePartsInput!) {
    relateParts(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export type PartOnSheet = Extract<PartSheetQuery['node'], { __typename: 'Part' }>;
