import { graphql } from '../../graphql/document.ts';
import type { FindInStoresQuery } from '../../graphql/generated/graphql.ts';

export const FindInStoresDocument = graphql(`
  query FindInStores($code: String!) {
    findInStores(code: $code) {
      lots {
        id
        batch
        bin
        onHand
        part {
          id
          title
          unit
        }
      }
      parts {
        id
        number
        title
        shortage
      }
    }
  }
`);

export type FoundInStores = FindInStoresQuery['findInStores'];
