import { graphql } from '../../../graphql/document.ts';
import type { OutsideJobFragment } from '../../../graphql/generated/graphql.ts';

graphql(`
  fragment OutsideJob on OutsideJob {
    id
    number
    vendor
    what
    partNumber
    serial
    sentAt
    promisedOn
    promisedBy
    overdue
    returnedAt
    returnedBy {
      name
    }
    tag
    withoutTag
    documents {
      id
      url
      name
      mime
    }
    bills {
      id
      reference
      cost
      charge {
        id
        amount
        ended
      }
      quoteLine {
        title
      }
    }
  }
`);

/** Something that is or was with another shop. */
export type OutsideJob = OutsideJobFragment;
