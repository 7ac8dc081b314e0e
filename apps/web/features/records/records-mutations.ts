import { graphql } from '../../graphql/document.ts';

export const InitialItemDocument = graphql(`
  mutation InitialItem($input: InitialItemInput!) {
    initialItem(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on WorkItem {
        id
      }
    }
  }
`);

export const SignEntryDocument = graphql(`
  mutation SignEntry($input: SignEntryInput!) {
    signEntry(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on RecordEntry {
        id
      }
    }
  }
`);

export const ReleaseAircraftDocument = graphql(`
  mutation ReleaseAircraft($input: ReleaseAircraftInput!) {
    releaseAircraft(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on WorkOrder {
        id
      }
    }
  }
`);

export const HandBackDocument = graphql(`
  mutation HandBack($input: HandBackInput!) {
    handBack(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on WorkOrder {
        id
      }
    }
  }
`);

export const CloseOrderDocument = graphql(`
  mutation CloseOrder($input: CloseOrderInput!) {
    closeOrder(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on WorkOrder {
        id
      }
    }
  }
`);
