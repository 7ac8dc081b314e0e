import { type Hours, inHours } from './hours.ts';

type Said = { readonly sentence: string };

/** Where the chain starts: hours. */
export type Start = Said &
  (
    | { readonly kind: 'standard'; readonly hours: Hours }
    | { readonly kind: 'shop-median'; readonly hours: Hours; readonly jobs: number }
    | { readonly kind: 'own-times'; readonly hours: Hours; readonly jobs: number }
  );

/** A link of the chain: a factor on the hours before it. */
export type Link = Said & {
  readonly kind: 'shop' | 'place' | 'mechanic' | 'aircraft';
  readonly factor: number;
  readonly jobs: number;
};

/** Something the reader should know that is not a factor. */
export type Note = Said &
  (
    | { readonly kind: 'prior-off' }
    | {
        readonly kind: 'sample';
        readonly jobs: number;
        readonly meanLnHours: number;
        readonly sdLnHours: number;
      }
    | { readonly kind: 'censored-left-out'; readonly jobs: number }
    | { readonly kind: 'no-spread' }
    | { readonly kind: 'opening' }
  );

/** One reason behind an estimate: its kind and figures for a machine, one plain sentence for a person. */
export type Reason = Start | Link | Note;

const count = (n: number, one: string): string => `${n} ${n === 1 ? one : `${one}s`}`;

export const ownTimesReason = (hours: Hours, jobs: number): Start => ({
  kind: 'own-times',
  hours,
  jobs,
  sentence: `${count(jobs, 'job')} of this task alone: half took more than about ${inHours(hours)}.`,
});

export const priorOffReason = (): Note => ({
  kind: 'prior-off',
  sentence:
    'Only the recorded times of this task are used: no standard time, no other task, no access factors.',
});

export const sampleReason = (jobs: number, mean: number, sd: number): Note => ({
  kind: 'sample',
  jobs,
  meanLnHours: mean,
  sdLnHours: sd,
  sentence: `${count(jobs, 'job')}: ln hours with mean ${mean.toFixed(4)} and s.d. ${sd.toFixed(4)}.`,
});

export const censoredReason = (jobs: number): Note => ({
  kind: 'censored-left-out',
  jobs,
  sentence: `${count(jobs, 'unfinished job')} left out: ${jobs === 1 ? 'its hours are' : 'their hours are'} only a lower bound, so the work may run longer than this says.`,
});

export const noSpreadReason = (): Note => ({
  kind: 'no-spread',
  sentence: 'All recorded times are equal, so no range can be learned from them alone.',
});

/**
 * What is opened for several things at once: said at the opening, and at each thing that lies behind it.
 *
 * @param behind titles of what is done behind it in the same quote
 * @example openedOnceReason(['Oil service', 'Hose']).sentence // → 'Opened and closed once, for: Oil service, Hose.'
 */
export const openedOnceReason = (behind: readonly string[]): Note => ({
  kind: 'opening',
  sentence: `Opened and closed once, for: ${behind.join(', ')}.`,
});

/**
 * @param opening title of what is opened for it in the same quote; null: it is not quoted there
 * @example behindOpeningReason('Cowling off and on').sentence // → 'Opening it is quoted once as “Cowling off and on”, and not in these hours.'
 */
export const behindOpeningReason = (opening: string | null): Note => ({
  kind: 'opening',
  sentence:
    opening === null
      ? 'What has to be opened for it is a task of its own, and not in these hours.'
      : `Opening it is quoted once as “${opening}”, and not in these hours.`,
});

/**
 * Chain: the hours that the reasons multiply to, which is the P50 of the estimate.
 *
 * @throws RangeError when the reasons have no start
 */
export function chainHours(because: readonly Reason[]): number {
  const start = because.find((reason) => 'hours' in reason);
  if (start === undefined) throw new RangeError('These reasons have no hours to start from.');
  return because.reduce<number>(
    (product, reason) => ('factor' in reason ? product * reason.factor : product),
    start.hours,
  );
}
