import { graphql } from '../../graphql/document.ts';
import type { PromiseShownFragment } from '../../graphql/generated/graphql.ts';

/** What a DayDimension draws. */
graphql(`
  fragment PromiseShown on ReturnPromise {
    beginsOn
    outcome
    p50
    p80
    atBestP50
    atBestP80
    sentence
    waits {
      words
    }
    parts {
      work
      away
      others
      waits
    }
  }
`);

export type PromiseData = PromiseShownFragment;
