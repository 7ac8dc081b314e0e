import { graphql } from '../../graphql/generated/gql.ts';
import type { FloorQuery } from '../../graphql/generated/graphql.ts';

export const FloorDocument = graphql(`
  query Floor {
    floor {
      __typename
      ... on Refusal {
        message
      }
      ... on Floor {
        asOf
        clearanceMm
        occupancyToday
        occupancyFortnight
        hangar {
          id
          name
          widthMm
          depthMm
          doorFromMm
          doorWidthMm
        }
        stands {
          id
          name
          xMm
          yMm
          widthMm
          depthMm
          headingDeg
          stay {
            ...StayOnFloor
          }
        }
        coming {
          at
          kind
          late
          stay {
            ...StayOnFloor
          }
        }
        conflicts {
          kind
          sentence
          from
          to
          stayIds
        }
      }
    }
  }

  fragment StayOnFloor on Stay {
    id
    kind
    startsAt
    endsAt
    stand {
      id
      name
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
    }
    order {
      id
      number
      title
      state
      agreed
      costSoFar
      beyondAuthority
      items {
        state
        waitingFor
        runningBy {
          initials
        }
      }
      findings {
        state
      }
    }
  }
`);

export type Floor = Extract<FloorQuery['floor'], { __typename: 'Floor' }>;
export type Stand = Floor['stands'][number];
export type Stay = NonNullable<Stand['stay']>;
export type Change = Floor['coming'][number];
export type Conflict = Floor['conflicts'][number];

/** What can be put on the floor: the aircraft that the shop knows, and the orders that they come for. */
export const FloorChoicesDocument = graphql(`
  query FloorChoices {
    aircraft(first: 100) {
      edges {
        node {
          id
          registration
          model {
            name
            kind
            lengthMm
            spanMm
            heightMm
            parkedLengthMm
            parkedWidthMm
          }
        }
      }
    }
    orders(first: 100, states: [planned, here, ready_to_sign]) {
      edges {
        node {
          id
          number
          title
          aircraft {
            id
          }
        }
      }
    }
  }
`);

export const PlanStayDocument = graphql(`
  mutation PlanStay($input: PlanStayInput!) {
    planStay(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Stay {
        id
        startsAt
        endsAt
        stand {
          name
        }
        aircraft {
          registration
        }
      }
    }
  }
`);

export const MoveAircraftDocument = graphql(`
  mutation MoveAircraft($input: MoveAircraftInput!) {
    moveAircraft(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Stay {
        id
        stand {
          name
        }
        aircraft {
          registration
        }
      }
    }
  }
`);

export const DepartAircraftDocument = graphql(`
  mutation DepartAircraft($input: DepartAircraftInput!) {
    departAircraft(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
      ... on Stay {
        id
        aircraft {
          registration
        }
      }
    }
  }
`);
