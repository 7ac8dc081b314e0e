import { graphql } from '../../graphql/document.ts';
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
      floorVersion
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
      costAtCompletion {
        p50
        p90
      }
      margin {
        left
      }
      beyondAuthority
      appointedLook
      promisedAtArrival {
        p50
        p80
      }
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
          floorVersion
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

/** What a change of the floor answers: the stay, a no, or that somebody was faster. */
graphql(`
  fragment PlacedStay on Stay {
    id
    stand {
      name
    }
    aircraft {
      registration
    }
  }
  fragment NotPlaced on Refusal {
    message
    field
  }
  fragment WasMoved on MovedMeanwhile {
    message
  }
`);

export const PlanStayDocument = graphql(`
  mutation PlanStay($input: PlanStayInput!) {
    answer: planStay(input: $input) {
      __typename
      ...PlacedStay
      ...NotPlaced
      ...WasMoved
    }
  }
`);

export const ReplanStayDocument = graphql(`
  mutation ReplanStay($input: ReplanStayInput!) {
    answer: replanStay(input: $input) {
      __typename
      ...PlacedStay
      ...NotPlaced
      ...WasMoved
    }
  }
`);

export const MoveAircraftDocument = graphql(`
  mutation MoveAircraft($input: MoveAircraftInput!) {
    answer: moveAircraft(input: $input) {
      __typename
      ...PlacedStay
      ...NotPlaced
      ...WasMoved
    }
  }
`);

export const PlanDepartureDocument = graphql(`
  mutation PlanDeparture($input: PlanDepartureInput!) {
    answer: planDeparture(input: $input) {
      __typename
      ...PlacedStay
      ...NotPlaced
      ...WasMoved
    }
  }
`);

export const DepartAircraftDocument = graphql(`
  mutation DepartAircraft($input: DepartAircraftInput!) {
    answer: departAircraft(input: $input) {
      __typename
      ...PlacedStay
      ...NotPlaced
      ...WasMoved
    }
  }
`);

export const DropPlanDocument = graphql(`
  mutation DropPlan($input: DropPlanInput!) {
    answer: dropPlan(input: $input) {
      __typename
      ... on Aircraft {
        registration
      }
      ...NotPlaced
      ...WasMoved
    }
  }
`);
