import { graphql } from '../../graphql/document.ts';
import type { OwnerLinksQuery } from '../../graphql/generated/graphql.ts';

export const OwnerLinksDocument = graphql(`
  query OwnerLinks($orderId: ID, $quoteId: ID) {
    ownerLinks(orderId: $orderId, quoteId: $quoteId) {
      id
      contactName
      createdAt
      expiresAt
      revokedAt
    }
  }
`);

export type OwnerLinkData = OwnerLinksQuery['ownerLinks'][number];

export const MakeOwnerLinkDocument = graphql(`
  mutation MakeOwnerLink($input: MakeOwnerLinkInput!) {
    makeOwnerLink(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on MadeOwnerLink {
        url
        expiresAt
      }
    }
  }
`);

export const RevokeOwnerLinkDocument = graphql(`
  mutation RevokeOwnerLink($linkId: ID!) {
    revokeOwnerLink(linkId: $linkId) {
      __typename
      ... on Refusal {
        message
      }
      ... on OwnerLink {
        id
        revokedAt
      }
    }
  }
`);
