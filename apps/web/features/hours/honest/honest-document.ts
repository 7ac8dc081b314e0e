import { graphql } from '../../../graphql/document.ts';
import type {
  HoursByMechanicQuery,
  HoursHonestyQuery,
} from '../../../graphql/generated/graphql.ts';

/** The newest back-test, and the one that waits or runs. */
export const HonestyDocument = graphql(`
  query HoursHonesty {
    hoursHonesty {
      run {
        state
        askedBy
        dueAt
        monthsDone
        monthsAll
        standsStill
        problem
      }
      newest {
        number
        modelNumber
        computedAt
        ms
        history
        tooLittle
        score {
          items
          coverage {
            items
            within
            sentence
          }
          loss {
            p50
            p80
            p90
          }
          crps
          tenths
          tenthsLow
          tenthsHigh
          verdict
          rivals {
            name
            items
            coverage
            loss {
              p50
              p80
              p90
            }
            modelLoss {
              p50
              p80
              p90
            }
            crps
            modelCrps
            tenths
            differenceFrom
            differenceTo
            standing
          }
        }
        months {
          month
          coverage {
            items
            within
            low
            high
            verdict
          }
          loss80
        }
        byTask {
          key
          name
          score {
            ...SliceScore
          }
        }
        byModel {
          key
          name
          score {
            ...SliceScore
          }
        }
      }
    }
  }
`);

graphql(`
  fragment SliceScore on BacktestScore {
    items
    coverage {
      items
      within
      verdict
    }
    loss {
      p80
    }
    crps
    rivals {
      name
      standing
    }
  }
`);

/** For the manager alone. */
export const ByMechanicDocument = graphql(`
  query HoursByMechanic {
    hoursByMechanic {
      __typename
      ... on BacktestByMechanic {
        slices {
          key
          name
          score {
            ...SliceScore
          }
        }
      }
      ... on Refusal {
        message
      }
    }
  }
`);

export const AskBacktestDocument = graphql(`
  mutation AskBacktest {
    result: askBacktest {
      __typename
      ... on Refusal {
        message
        field
      }
    }
  }
`);

export type Honesty = HoursHonestyQuery['hoursHonesty'];
export type Backtest = NonNullable<Honesty['newest']>;
export type Score = Backtest['score'];
export type Rival = Backtest['score']['rivals'][number];
export type Slice = Extract<
  HoursByMechanicQuery['hoursByMechanic'],
  { __typename: 'BacktestByMechanic' }
>['slices'][number];
