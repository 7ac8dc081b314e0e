import { graphql } from '../../graphql/document.ts';
import type {
  FittedQuery,
  LotOnShelfFragment,
  PartsOutQuery,
  PartsQuery,
  ShelfQuery,
} from '../../graphql/generated/graphql.ts';

/** A lot as a row of the shelves shows it, and as the forms that move it need it. */
graphql(`
  fragment LotOnShelf on Lot {
    id
    batch
    tag
    hasTrace
    supplier
    receivedOn
    shelfLifeUntil
    bin
    onHand
    available
    part {
      id
      number
      title
      unit
    }
  }
`);

export const ShelfDocument = graphql(`
  query Shelf($after: String, $inStock: Boolean!) {
    lots(first: 200, after: $after, inStock: $inStock) {
      pageInfo {
        hasNextPage
        endCursor
      }
      edges {
        node {
          ...LotOnShelf
          part {
            id
            learned {
              id
              words
              stillTrue
              at
              by {
                id
                name
              }
            }
          }
        }
      }
    }
  }
`);

/** The work that parts can go to, with what each item holds. */
export const PartsOutDocument = graphql(`
  query PartsOut {
    orders(first: 60, states: [here, ready_to_sign]) {
      edges {
        node {
          id
          number
          title
          aircraft {
            registration
          }
          items {
            id
            position
            title
            state
            parts {
              quantity
              lot {
                id
                batch
                bin
                part {
                  title
                  unit
                }
              }
            }
          }
        }
      }
    }
  }
`);

export const PartsDocument = graphql(`
  query Parts($search: String) {
    parts(first: 40, search: $search) {
      edges {
        node {
          id
          number
          title
          unit
        }
      }
    }
  }
`);

export const FittedDocument = graphql(`
  query Fitted {
    aircraft(first: 200) {
      edges {
        node {
          id
          registration
          components {
            id
            kind
            title
            partNumber
            serial
          }
        }
      }
    }
  }
`);

export const ReceiveLotDocument = graphql(`
  mutation ReceiveLot($input: ReceiveLotInput!) {
    receiveLot(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Lot {
        id
      }
    }
  }
`);

export const IssuePartDocument = graphql(`
  mutation IssuePart($input: IssuePartInput!) {
    issuePart(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
      ... on Lot {
        id
      }
    }
  }
`);

export const ReturnPartDocument = graphql(`
  mutation ReturnPart($input: ReturnPartInput!) {
    returnPart(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Lot {
        id
      }
    }
  }
`);

export type Lot = LotOnShelfFragment;
export type LotWithNotes = ShelfQuery['lots']['edges'][number]['node'];
export type OrderWithParts = PartsOutQuery['orders']['edges'][number]['node'];
export type StoresPart = PartsQuery['parts']['edges'][number]['node'];
export type AircraftWithComponents = FittedQuery['aircraft']['edges'][number]['node'];
