import { graphql } from '../../graphql/document.ts';
import type { ItemCareQuery, TorqueChoicesQuery } from '../../graphql/generated/graphql.ts';

/** What is left at an item, and what was checked and tightened at it. */
export const ItemCareDocument = graphql(`
  query ItemCare($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkItem {
        id
        state
        order {
          id
        }
        torques {
          id
          fastener
          torque
          unit
          drag
          lever
          extension
          setting
          source
          thread
          lapsed
          goodUntil
          reason
          at
          clientEventId
          tool {
            id
            name
            number
          }
          by {
            id
            name
          }
        }
        compressions {
          id
          engine
          supply
          note
          at
          clientEventId
          cylinders {
            number
            held
            inExcess
          }
          by {
            id
            name
          }
        }
      }
    }
  }
`);

export type CaredItem = Extract<ItemCareQuery['node'], { __typename: 'WorkItem' }>;

/** With which wrenches, and to what where the maker says nothing. */
export const TorqueChoicesDocument = graphql(`
  query TorqueChoices {
    torqueCautions
    tools {
      id
      kind
      name
      number
      goodUntil
      lapsed
    }
    generalTorques {
      thread
      nut
      from
      to
      most
      estimated
    }
  }
`);

export type TorqueChoices = TorqueChoicesQuery;

export const RecordTorqueDocument = graphql(`
  mutation RecordTorque($input: RecordTorqueInput!) {
    answer: recordTorque(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const RecordCompressionDocument = graphql(`
  mutation RecordCompression($input: RecordCompressionInput!) {
    answer: recordCompression(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const InitialLineDocument = graphql(`
  mutation InitialLine($input: InitialLineInput!) {
    answer: initialLine(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);
