import { graphql } from '../../graphql/document.ts';
import '../../components/photo-fragment.ts';
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
    inoperative {
      kind
      equipment
      method
      placardAt
      answers
      words
      capacity
      at
      by {
        name
      }
    }
    inoperativeCautions
    order {
      id
      items {
        id
        position
        title
      }
    }
    symptom
    turnedOut {
      id
      says
    }
    foundAt
    foundBy {
      name
    }
    photos {
      ...PhotoShown
    }
    photoPairs {
      beforeId
      afterId
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
