import { graphql } from '../../graphql/document.ts';
import type { DeskCatalogueQuery } from '../../graphql/generated/graphql.ts';

/** What a quote is put together from: few enough to fetch whole, so that typing never waits. */
export const DeskCatalogueDocument = graphql(`
  query DeskCatalogue {
    aircraft(first: 200) {
      edges {
        node {
          id
          registration
          model {
            id
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
              phone
            }
          }
        }
      }
    }
    packages {
      id
      title
      modelKind
      model {
        id
      }
      price
      offered
      warning
      tasks {
        task {
          id
          title
          jasc
        }
      }
    }
  }
`);

export type DeskAircraft = DeskCatalogueQuery['aircraft']['edges'][number]['node'];
export type DeskPackage = DeskCatalogueQuery['packages'][number];

export const FindTasksDocument = graphql(`
  query FindTasks($search: String) {
    tasks(first: 20, search: $search) {
      edges {
        node {
          id
          title
          jasc
          standardHours
        }
      }
    }
  }
`);

export const FindPartsDocument = graphql(`
  query FindParts($search: String) {
    parts(first: 20, search: $search) {
      edges {
        node {
          id
          number
          title
          unit
          unitPrice
        }
      }
    }
  }
`);

/** The packages on offer that suit an aircraft: those of its model, of its kind, or of any. */
export function packagesFor(
  packages: readonly DeskPackage[],
  { model }: DeskAircraft,
): DeskPackage[] {
  return packages.filter(
    (each) =>
      each.offered &&
      (each.model === null || each.model.id === model.id) &&
      (each.modelKind === null || each.modelKind === model.kind),
  );
}
