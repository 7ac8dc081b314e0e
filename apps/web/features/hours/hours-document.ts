import { graphql } from '../../graphql/generated/gql.ts';
import type { HoursQuery } from '../../graphql/generated/graphql.ts';

/** What the shop has clocked and how its estimates did, for the Hours sheet. */
export const HoursDocument = graphql(`
  query Hours {
    hindsight {
      quotedAgainstActual {
        itemId
        title
        orderNumber
        registration
        doneAt
        p10
        p50
        p80
        p90
        actual
        within
      }
      byTask {
        task
        title
        standardHours
        jobs
        lowerBounds
        medianHours
        lastOn
      }
      imports(first: 50) {
        edges {
          node {
            id
            fileName
            rows
            importedAt
          }
        }
      }
    }
  }
`);

export type Hindsight = HoursQuery['hindsight'];
export type QuotedItem = Hindsight['quotedAgainstActual'][number];
