import { graphql } from '../../graphql/document.ts';
import type { FindingOnSheetFragment } from '../../graphql/generated/graphql.ts';

/** What FindingPart draws: one question for the desk's sheet and for the inspector's. */
graphql(`
  fragment FindingOnSheet on Finding {
    id
    number
    title
    words
    zone
    state
    class
    provisional
    meaning
    putOffBecause
    foundAt
    foundBy {
      name
    }
    photos {
      id
      url
      largeUrl
      middleUrl
      thumbUrl
      words
      width
      height
    }
    quotes {
      id
      number
      state
      newest {
        currency
        low
        likely
        p80
        high
      }
    }
  }
`);

export type FindingData = FindingOnSheetFragment;
