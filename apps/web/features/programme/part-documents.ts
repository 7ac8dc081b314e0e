import { graphql } from '../../graphql/document.ts';
import type {
  AircraftPartsQuery,
  ComponentsQuery,
  ComponentWithTimesQuery,
} from '../../graphql/generated/graphql.ts';

export const AircraftPartsDocument = graphql(`
  query AircraftParts($id: ID!) {
    node(id: $id) {
      __typename
      ... on Aircraft {
        id
        workHere {
            id
            position
            title
            order {
              number
            }
          }
        partTimes {
          id
          title
          partNumber
          serial
          position
          parentId
          tisHundredths
          sinceOverhaulHundredths
          lifeLimitHundredths
          problem
        }
      }
    }
    components {
      id
      title
      partNumber
      serial
      aircraft {
        id
      }
    }
  }
`);
export type FittedPart = Extract<
  NonNullable<AircraftPartsQuery['node']>,
  { __typename: 'Aircraft' }
>['partTimes'][number];
/** Items in whose course parts go on and come off. */
export type WorkHere = Extract<
  NonNullable<AircraftPartsQuery['node']>,
  { __typename: 'Aircraft' }
>['workHere'][number];
export type ShelfPart = AircraftPartsQuery['components'][number];

export const ComponentsDocument = graphql(`
  query Components {
    components {
      id
      title
      partNumber
      serial
      aircraft {
        id
        registration
      }
      times {
        tisHundredths
        problem
        sinceOverhaulHundredths
        lifeLimitHundredths
      }
    }
  }
`);
export type KnownPart = ComponentsQuery['components'][number];

export const ComponentDocument = graphql(`
  query ComponentWithTimes($id: ID!) {
    node(id: $id) {
      __typename
      ... on Component {
        id
        title
        partNumber
        serial
        aircraft {
          id
          registration
          workHere {
            id
            position
            title
            order {
              number
            }
          }
        }
        times {
          tisHundredths
          problem
          sinceOverhaulHundredths
          lifeLimitHundredths
          counts {
            cycles
            landings
            starts
          }
        }
        workLately {
          id
          position
          title
          order {
            number
          }
        }
        stays {
          id
          fittedInWork
          removedInWork
          disposition
          dispositionWords
          aircraft
          position
          carriedBy
          fittedAt
          fittedBy
          aircraftAtFitting
          ownAtFitting
          removedAt
          removedBy
          aircraftAtRemoval
          ownAtRemoval
          countedThere {
            cycles
            landings
            starts
          }
          removalWords
        }
      }
    }
  }
`);
export type PartOfSheet = Extract<
  NonNullable<ComponentWithTimesQuery['node']>,
  { __typename: 'Component' }
>;

export const AddComponentDocument = graphql(`
  mutation AddComponent($input: AddComponentInput!) {
    addComponent(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Component {
        id
      }
    }
  }
`);

export const FitComponentDocument = graphql(`
  mutation FitComponent($input: FitComponentInput!) {
    fitComponent(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Component {
        id
      }
    }
  }
`);

export const RemoveComponentDocument = graphql(`
  mutation RemoveComponent($input: RemoveComponentInput!) {
    removeComponent(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Component {
        id
      }
    }
  }
`);

export const HandleComponentDocument = graphql(`
  mutation HandleComponent($input: HandleComponentInput!) {
    handleComponent(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Component {
        id
      }
    }
  }
`);
