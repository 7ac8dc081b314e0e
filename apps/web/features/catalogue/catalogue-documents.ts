import { graphql } from '../../graphql/document.ts';
import type { PackageSheetQuery } from '../../graphql/generated/graphql.ts';

/** What is sold together, and what there is to start from. */
export const PackagesDocument = graphql(`
  query Packages {
    packages {
      id
      title
      inspection
      modelKind
      model {
        maker
        name
      }
      revision
      price
      offered
      warning
      missing {
        paragraph
      }
      tasks {
        position
      }
    }
    starterPackages {
      key
      title
      aircraft
      items {
        paragraph
        group
        title
      }
      leftOut {
        paragraph
        because
      }
    }
    models {
      id
      maker
      name
      kind
    }
  }
`);

graphql(`
  fragment TaskInPackage on Task {
    id
    title
    jasc
    standardHours
    critical
    cautions
    reference
    checklist
    paragraphs
    version
  }
`);

export const PackageSheetDocument = graphql(`
  query PackageSheet($id: ID!) {
    node(id: $id) {
      __typename
      ... on Package {
        id
        title
        inspection
        modelKind
        model {
          id
        }
        revision
        price
        madeFrom
        madeFromOn
        offered
        warning
        missing {
          paragraph
          group
          title
          jasc
          checklist
        }
        tasks {
          task {
            ...TaskInPackage
          }
        }
        revisions {
          revision
          at
          by {
            name
          }
          titles
        }
      }
    }
    models {
      id
      maker
      name
      kind
    }
  }
`);

export const ModelsDocument = graphql(`
  query ModelsToSellFor {
    models {
      id
      maker
      name
      kind
    }
  }
`);

export type PackageOnSheet = Extract<PackageSheetQuery['node'], { __typename: 'Package' }>;
export type TaskInPackage = PackageOnSheet['tasks'][number]['task'];
export type ModelChoice = PackageSheetQuery['models'][number];

export const SavePackageDocument = graphql(`
  mutation SavePackage($input: SavePackageInput!) {
    answer: savePackage(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Package {
        id
      }
    }
  }
`);

export const TakeStarterDocument = graphql(`
  mutation TakeStarter($input: TakeStarterInput!) {
    answer: takeStarter(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Package {
        id
      }
    }
  }
`);

export const SaveTaskDocument = graphql(`
  mutation SaveTask($input: SaveTaskInput!) {
    answer: saveTask(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Task {
        ...TaskInPackage
      }
    }
  }
`);

export const TaskInPackageDocument = graphql(`
  query TaskToPack($id: ID!) {
    node(id: $id) {
      __typename
      ... on Task {
        ...TaskInPackage
      }
    }
  }
`);

export const SetPackageHoursDocument = graphql(`
  mutation SetPackageHours($input: SetPackageHoursInput!) {
    answer: setPackageHours(input: $input) {
      __typename
      ... on Refusal {
        message
      }
      ... on Package {
        tasks {
          task {
            ...TaskInPackage
          }
        }
      }
    }
  }
`);
