import { graphql } from '../../graphql/document.ts';
import type { WithFindingsOnSheetFragment } from '../../graphql/generated/graphql.ts';

/** What is drawn beside an offer. */
graphql(`
  fragment WithFindingsOnSheet on WithFindings {
    likely
    high
    hoursP50
    hoursP90
    sentence
    findings {
      taskId
      title
      probability
      from
      to
      sentence
      hoursP50
      hoursP90
      parts
    }
  }
`);

export type WithFindingsData = WithFindingsOnSheetFragment;
