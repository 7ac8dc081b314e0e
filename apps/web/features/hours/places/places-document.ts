import { graphql } from '../../../graphql/document.ts';
import type { HoursPlacesQuery } from '../../../graphql/generated/graphql.ts';

/** What places cost, and the table that it begins from. */
export const PlacesDocument = graphql(`
  query HoursPlaces {
    hoursPlaces {
      model {
        number
        fittedAt
        items
        settled
        tableRevision
      }
      factors {
        condition
        conditionWords
        words
        prior {
          factor
          from
          to
        }
        posterior {
          factor
          from
          to
        }
        items
        sentence
      }
      table {
        revision
        steps {
          condition
          conditionWords
          step
          words
          factor
          giveOrTake
        }
      }
      revisions {
        revision
        savedBy
        savedAt
        reason
        changes
      }
      sources
    }
  }
`);

export const SaveTableDocument = graphql(`
  mutation SaveAccessPriors($input: SaveAccessPriorsInput!) {
    result: saveAccessPriors(input: $input) {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export type Places = HoursPlacesQuery['hoursPlaces'];
export type Factor = Places['factors'][number];
export type Step = Places['table']['steps'][number];

/** Things of one condition together, in their order. */
export function byCondition<One extends { conditionWords: string }>(
  all: readonly One[],
): { words: string; of: One[] }[] {
  const groups = new Map<string, One[]>();
  for (const one of all)
    groups.set(one.conditionWords, [...(groups.get(one.conditionWords) ?? []), one]);
  return [...groups].map(([words, of]) => ({ words, of }));
}
