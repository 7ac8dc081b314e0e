import { graphql } from '../../graphql/document.ts';
import type { OpenOnOrderQuery } from '../../graphql/generated/graphql.ts';

/** What is open on an aircraft: panels and parts, tools, what was left to the next, the looks for leaks. */
export const OpenOnOrderDocument = graphql(`
  query OpenOnOrder($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        number
        title
        state
        aircraft {
          id
          registration
        }
        items {
          id
          position
          title
          torques {
            id
            fastener
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
        }
        openLines {
          id
          kind
          words
          place
          at
          clientEventId
          state
          by {
            id
            name
          }
          item {
            id
            position
          }
          events {
            id
            kind
            note
            at
            clientEventId
            by {
              id
              name
            }
          }
        }
        toolCounts {
          itemId
          agrees
          lastAt
          lastBy
          clientEventIds
          names {
            name
            out
            back
          }
        }
        handOvers {
          id
          done
          notDone
          loose
          at
          by {
            id
            name
          }
          item {
            id
            position
            title
          }
          takenOver {
            at
            by {
              id
              name
            }
          }
        }
        leakChecks {
          kind
          state
          last {
            id
            plannedFor
            seen
            fluid
            stainInches
            fuelLeak
            words
            at
            by {
              id
              name
            }
            finding {
              id
              number
              title
            }
          }
        }
        findings {
          id
          number
          title
          state
        }
      }
    }
  }
`);

export type OpenOrder = Extract<OpenOnOrderQuery['node'], { __typename: 'WorkOrder' }>;
export type OpenLine = OpenOrder['openLines'][number];
export type CountState = OpenOrder['toolCounts'][number];
export type LeakStanding = OpenOrder['leakChecks'][number];

export const NoteOpenLineDocument = graphql(`
  mutation NoteOpenLine($input: NoteOpenLineInput!) {
    answer: noteOpenLine(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const MarkOpenLineDocument = graphql(`
  mutation MarkOpenLine($input: MarkOpenLineInput!) {
    answer: markOpenLine(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const CountToolsDocument = graphql(`
  mutation CountTools($input: CountToolsInput!) {
    answer: countTools(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const LeaveHandOverDocument = graphql(`
  mutation LeaveHandOver($input: LeaveHandOverInput!) {
    answer: leaveHandOver(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const TakeOverDocument = graphql(`
  mutation TakeOver($input: TakeOverInput!) {
    answer: takeOver(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const AppointLookDocument = graphql(`
  mutation AppointLook($input: AppointLookInput!) {
    answer: appointLook(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);

export const RecordLeakCheckDocument = graphql(`
  mutation RecordLeakCheck($input: RecordLeakCheckInput!) {
    answer: recordLeakCheck(input: $input) {
      __typename
      ... on Refusal {
        code
        message
      }
    }
  }
`);
