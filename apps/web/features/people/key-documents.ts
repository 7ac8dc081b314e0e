import { graphql } from '../../graphql/document.ts';

export const ShopKeysDocument = graphql(`
  query ShopKeys {
    shopKeys {
      __typename
      ... on Refusal {
        message
      }
      ... on QueryShopKeysSuccess {
        data {
          id
          fingerprint
          madeAt
          links
          replaced {
            lost
            reason
            at
            by {
              name
            }
          }
        }
      }
    }
  }
`);

export const ChangeShopKeyDocument = graphql(`
  mutation ChangeShopKey($lost: Boolean!, $reason: String!, $signature: String!) {
    changeShopKey(lost: $lost, reason: $reason, signature: $signature) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on ShopKeyChange {
        id
      }
    }
  }
`);
