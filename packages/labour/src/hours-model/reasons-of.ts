import { hours, inHours, inTimes } from '../hours.ts';
import type { Reason } from '../reasons.ts';
import type { Step } from './predictor.ts';

const count = (n: number, one: string): string => `${n} ${n === 1 ? one : `${one}s`}`;

/**
 * Reasons of an estimate: its steps as sentences that anybody can read. Their product is the P50.
 *
 * @param steps of one estimate, the start first
 * @param learned finished items that the model learned from
 * @example reasonsOf([{ kind: 'start', factor: 2, items: 0, words: 'standard' }], 40)
 *   // [{ kind: 'standard', hours: 2, sentence: 'The standard time is 2.0 h.' }]
 */
export function reasonsOf(steps: readonly Step[], learned: number): Reason[] {
  return steps.map(({ kind, factor, items, words }): Reason => {
    const jobs = items;
    switch (kind) {
      case 'start': {
        const start = hours(factor);
        return words === 'standard'
          ? { kind: 'standard', hours: start, sentence: `The standard time is ${inHours(start)}.` }
          : {
              kind: 'shop-median',
              hours: start,
              jobs: learned,
              sentence: `There is no standard time, so it starts from the middle of all that this shop has clocked: ${inHours(start)}, over ${count(learned, 'job')}.`,
            };
      }
      case 'shop':
        return {
          kind: 'shop',
          factor,
          jobs,
          sentence:
            jobs === 0
              ? `This task has not been finished here yet; by the shop's other work it takes ${inTimes(factor)} of that.`
              : `This shop takes ${inTimes(factor)} of that, by ${count(jobs, 'job')} of this task and all that is like it.`,
        };
      case 'place':
        return {
          kind: 'place',
          factor,
          jobs,
          sentence: `This place ${inTimes(factor)}${words.replace(/^this place/, '')}, ${jobs === 0 ? 'by common practice: nothing like it is clocked yet' : `by ${count(jobs, 'job')} and common practice`}.`,
        };
      case 'mechanic':
        return {
          kind: 'mechanic',
          factor,
          jobs,
          sentence: `With ${words} ${inTimes(factor)}, by ${count(jobs, 'job')}: for planning, not a mark.`,
        };
      case 'aircraft':
        return {
          kind: 'aircraft',
          factor,
          jobs,
          sentence: `On this aircraft (${words}) ${inTimes(factor)}, by ${count(jobs, 'job')}.`,
        };
    }
  });
}
