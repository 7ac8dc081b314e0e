import { graphql } from '../../graphql/document.ts';

/** What runs for whoever reads, for sheets other than the bench. */
export const RunningDocument = graphql(`
  query Running {
    bench {
      running {
        id
        startedAt
        item {
          id
          title
          order {
            id
            agreed
            costSoFar
            costAhead {
              at
              cost
            }
            aircraft {
              id
              registration
            }
          }
        }
      }
    }
  }
`);
