import { type AccessLoading, accessLoadings } from '../access.ts';
import { type AccessConditions, FREE_BENCH } from '../access-conditions.ts';
import type { AccessPriors } from '../access-priors.ts';
import type { HistoryRow, MechanicShare } from '../history-columns.ts';
import { hours } from '../hours.ts';
import type { EffectPrior } from '../mixed/problem.ts';
import type { HoursPriors } from './priors.ts';

/** What is known of an item before it is done: what an estimate is asked for. */
export type PlannedItem = {
  readonly task: string;
  /** JASC code; its first two digits are the chapter. */
  readonly jasc?: string | undefined;
  readonly standardHours?: number | undefined;
  readonly model?: string | undefined;
  readonly registration?: string | undefined;
  /** Who will do it, where that is known. */
  readonly mechanics: readonly MechanicShare[];
  readonly place?: AccessConditions | undefined;
  /** The place that the standard was stated for; undefined: a free bench. */
  readonly statedFor?: AccessConditions | undefined;
};

/** An item that was done, or given up after so many hours (`censored`). */
export type DoneItem = PlannedItem & { readonly hours: number; readonly censored: boolean };

/** A row of a history file as the model sees it. The file does not say what a standard was stated for. */
export const doneItem = (row: HistoryRow): DoneItem => ({
  task: row.task,
  jasc: row.jasc,
  standardHours: row.standardHours,
  model: row.model,
  registration: row.registration,
  mechanics: row.mechanics,
  place: row.found,
  hours: row.hours,
  censored: row.censored,
});

/** The grouping factors, in their order in the model. */
export const FACTORS = [
  'taskWithStandard',
  'taskWithout',
  'mechanic',
  'modelChapter',
  'registration',
] as const;
export type Factor = (typeof FACTORS)[number];

/** One item in the model's terms: fixed columns and levels by name, with their coefficients. */
export type CodedItem = {
  /** What is known for certain: ln of the standard time, or 0. */
  readonly offset: number;
  readonly fixed: readonly {
    readonly name: string;
    readonly value: number;
    readonly prior: EffectPrior;
  }[];
  readonly levels: readonly {
    readonly factor: Factor;
    readonly level: string;
    readonly share: number;
  }[];
  readonly access: readonly AccessLoading[];
};

/** What coding needs besides the item: the tables of priors, and the shop's median hours. */
export type CodingTables = {
  readonly priors: HoursPriors;
  readonly accessPriors: AccessPriors;
  readonly medianHours: number;
};

const NO_CHAPTER = 'none';

export const chapterOf = (jasc: string | undefined): string =>
  jasc === undefined || jasc === '' ? NO_CHAPTER : jasc.slice(0, 2);

function checkedShare({ name, share }: MechanicShare): number {
  if (!(share >= 0 && share <= 1)) {
    throw new RangeError(`The share of ${name} must be from 0 to 1; got ${share}.`);
  }
  return share;
}

/**
 * Codes an item for the model of shared levels:
 *
 *     ln h = ln standard + δ_chapter + task + x·β + mechanic + model×chapter + registration + ε   (with a standard)
 *     ln h = μ_chapter + task + x·β + …                                                          (without)
 *
 * Conditions or names that were not recorded contribute nothing.
 *
 * @throws RangeError for a standard that is not finite and above 0, a share outside 0 to 1, or impossible access conditions
 */
export function codeItem(item: PlannedItem, tables: CodingTables): CodedItem {
  const { priors, accessPriors, medianHours } = tables;
  const chapter = chapterOf(item.jasc);
  const { standardHours } = item;
  const access = accessLoadings(item.place, item.statedFor ?? FREE_BENCH, accessPriors);
  const level =
    standardHours === undefined
      ? {
          name: `chapter ${chapter}`,
          prior: { mean: Math.log(medianHours), sd: priors.chapterLevel },
        }
      : {
          name: `chapter ${chapter} on standard`,
          prior: { mean: 0, sd: priors.chapterOnStandard },
        };
  return {
    offset: standardHours === undefined ? 0 : Math.log(hours(standardHours)),
    fixed: [
      { ...level, value: 1 },
      ...access.map(({ increment, steps, mean, sd }) => ({
        name: `access ${increment}`,
        value: steps,
        prior: { mean, sd },
      })),
    ],
    levels: [
      {
        factor: standardHours === undefined ? 'taskWithout' : 'taskWithStandard',
        level: item.task,
        share: 1,
      },
      ...item.mechanics.map((mechanic) => ({
        factor: 'mechanic' as const,
        level: mechanic.name,
        share: checkedShare(mechanic),
      })),
      ...(item.model === undefined
        ? []
        : [{ factor: 'modelChapter' as const, level: `${item.model} × ${chapter}`, share: 1 }]),
      ...(item.registration === undefined
        ? []
        : [{ factor: 'registration' as const, level: item.registration, share: 1 }]),
    ],
    access,
  };
}
