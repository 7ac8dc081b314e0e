import type { AccessPart } from './access.ts';
import { type Hours, inHours, inTimes } from './hours.ts';

type Said = { readonly sentence: string };

/** Where the chain starts: hours. */
export type Start = Said &
  (
    | { readonly kind: 'standard'; readonly hours: Hours }
    | { readonly kind: 'shop-median'; readonly hours: Hours; readonly jobs: number }
    | { readonly kind: 'own-times'; readonly hours: Hours; readonly jobs: number }
  );

/** A link of the chain: a factor on the hours before it. */
export type Link = Said & { readonly factor: number } & (
    | { readonly kind: 'shop'; readonly tasks: number; readonly jobs: number }
    | { readonly kind: 'own-history'; readonly jobs: number }
    | { readonly kind: 'place'; readonly parts: readonly AccessPart[] }
  );

/** Something the reader should know that is not a factor. */
export type Note = Said &
  (
    | { readonly kind: 'prior-off' }
    | {
        readonly kind: 'sample';
        readonly jobs: number;
        readonly meanLnHours: number;
        readonly sdLnHours: number | undefined;
      }
    | { readonly kind: 'censored-left-out'; readonly jobs: number }
    | { readonly kind: 'no-spread' }
  );

/** One reason behind an estimate: its kind and figures for a machine, one plain sentence for a person. */
export type Reason = Start | Link | Note;

const count = (n: number, one: string): string => `${n} ${n === 1 ? one : `${one}s`}`;

export const standardReason = (hours: Hours): Start => ({
  kind: 'standard',
  hours,
  sentence: `The standard time is ${inHours(hours)}.`,
});

export const medianReason = (hours: Hours, jobs: number): Start => ({
  kind: 'shop-median',
  hours,
  jobs,
  sentence: `There is no standard time, so it starts from this shop's median of ${inHours(hours)} over ${count(jobs, 'job')}.`,
});

export const ownTimesReason = (hours: Hours, jobs: number): Start => ({
  kind: 'own-times',
  hours,
  jobs,
  sentence: `${count(jobs, 'job')} of this task alone: half took more than about ${inHours(hours)}.`,
});

export const shopReason = (factor: number, tasks: number, jobs: number): Link => ({
  kind: 'shop',
  factor,
  tasks,
  jobs,
  sentence:
    jobs === 0
      ? 'No other task with a standard time has been clocked yet, so the shop is taken as average.'
      : `This shop takes ${inTimes(factor)} of standard time, from ${count(jobs, 'job')} on ${count(tasks, 'other task')}.`,
});

export const ownHistoryReason = (factor: number, jobs: number): Link => ({
  kind: 'own-history',
  factor,
  jobs,
  sentence:
    jobs === 0
      ? 'This task has not been finished here before.'
      : `This task's own ${count(jobs, 'job')} here: ${inTimes(factor)}.`,
});

export const placeReason = (factor: number, parts: readonly AccessPart[]): Link => ({
  kind: 'place',
  factor,
  parts,
  sentence:
    parts.length === 0
      ? 'This place is taken as the one the figures before it are for.'
      : `This place ${inTimes(factor)}: ${parts.map((part) => `${part.words} ${inTimes(part.factor)}`).join('; ')}.`,
});

export const priorOffReason = (): Note => ({
  kind: 'prior-off',
  sentence:
    'Only the recorded times of this task are used: no standard time, no other task, no access factors.',
});

/** @param placeOut whether what the places cost has been taken out of the figures */
export const sampleReason = (
  jobs: number,
  mean: number,
  sd: number | undefined,
  placeOut: boolean,
): Note => ({
  kind: 'sample',
  jobs,
  meanLnHours: mean,
  sdLnHours: sd,
  sentence: `${count(jobs, 'job')}: ln hours${placeOut ? ', the place taken out,' : ''} with mean ${mean.toFixed(4)}${sd === undefined ? '' : ` and s.d. ${sd.toFixed(4)}`}.`,
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
