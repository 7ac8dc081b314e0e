import { graphql } from '../../graphql/document.ts';
import type { OrderSheetQuery } from '../../graphql/generated/graphql.ts';
// Its fragments.
import '../hangar/promise-shown.ts';
import './finding-on-sheet.ts';

export const OrderSheetDocument = graphql(`
  query OrderSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on WorkOrder {
        id
        number
        title
        state
        outcome
        openedAt
        agreed
        costSoFar
        margin {
          worth
          labour
          parts
          charges
          left
          since
        }
        costAtCompletion {
          p10
          p50
          p80
          p90
        }
        beyondAuthority
        beyondOnOrder
        overrunAllowed
        writeOffs {
          id
          amount
          reason
          at
          by {
            name
          }
        }
        promise {
          ...PromiseShown
        }
        promisedAtArrival {
          ...PromiseShown
        }
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
            }
          }
          readings(first: 12) {
            meter
            readingHundredths
            tisHundredths
            readAt
          }
        }
        events {
          kind
          at
        }
        squawks {
          id
          words
          reportedBy
        }
        received {
          id
          what
          returnedAt
        }
        readings {
          id
          meter
          readingHundredths
          tisHundredths
        }
        items {
          id
          position
          title
          jasc
          critical
          state
          waitingFor
          runningBy {
            initials
          }
          secondsWorked
          ourCost
          ourCostWords {
            putsRight {
              title
              order {
                number
              }
            }
          }
          putRightBy {
            item {
              title
              ourCost
              order {
                number
              }
            }
          }
          finding {
            number
          }
          expectations {
            id
            what
            expectedOn
            saidBy
            notedAt
          }
        }
        findings {
          ...FindingOnSheet
        }
        quotes {
          id
          number
          title
          state
          finding {
            number
          }
          newest {
            decisions {
              choice
              ceiling
            }
          }
        }
      }
    }
  }
`);

export type OrderData = Extract<NonNullable<OrderSheetQuery['node']>, { __typename: 'WorkOrder' }>;

export const StandsDocument = graphql(`
  query Stands {
    floor {
      __typename
      ... on Floor {
        stands {
          id
          name
          stay {
            aircraft {
              registration
            }
          }
        }
      }
    }
  }
`);

export const ReceiveAircraftDocument = graphql(`
  mutation ReceiveAircraft($input: ReceiveAircraftInput!) {
    receiveAircraft(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on WorkOrder {
        id
        state
      }
    }
  }
`);

export const AssessFindingDocument = graphql(`
  mutation AssessFinding($input: AssessFindingInput!) {
    assessFinding(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Finding {
        id
        state
      }
    }
  }
`);

export const PutOffFindingDocument = graphql(`
  mutation PutOffFinding($input: PutOffFindingInput!) {
    putOffFinding(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Finding {
        id
        state
      }
    }
  }
`);
