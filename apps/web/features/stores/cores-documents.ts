import { graphql } from '../../graphql/document.ts';
import type { CoresOwedQuery } from '../../graphql/generated/graphql.ts';

export const CoresOwedDocument = graphql(`
  query CoresOwed {
    coresOwedByWork {
      quantity
      amount
      since
      lot {
        id
        batch
        part {
          id
          number
          title
          unit
        }
      }
      item {
        id
        position
        title
        order {
          id
          number
          aircraft {
            registration
          }
        }
      }
    }
    coresOwedToSuppliers {
      quantity
      amount
      atHand
      lot {
        id
        batch
        supplier
        receivedOn
        part {
          id
          number
          title
          unit
        }
      }
    }
  }
`);

export const CoreCameBackDocument = graphql(`
  mutation CoreCameBack($input: CoreCameBackInput!) {
    coreCameBack(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export const CoreSentBackDocument = graphql(`
  mutation CoreSentBack($input: CoreSentBackInput!) {
    coreSentBack(input: $input) {
      __typename
      ... on Refusal {
        message
      }
    }
  }
`);

export type CoreByWork = CoresOwedQuery['coresOwedByWork'][number];
export type CoreToSupplier = CoresOwedQuery['coresOwedToSuppliers'][number];
