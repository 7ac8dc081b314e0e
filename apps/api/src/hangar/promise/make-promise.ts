import type { PromiseOutcome, Tx } from '@fairlead/database';
import {
  HANDS_AT_ONCE,
  type PromisedWork,
  type PromiseParts,
  promiseOf,
  type ReturnPromise,
} from '@fairlead/hangar';
import { PROMISE_DRAWS, PROMISE_SEED } from './draw-work.ts';
import { type Begins, daysAhead, otherWork } from './shop-ahead.ts';

/** A promise as it is kept and shown. */
export interface MadePromise {
  beginsOn: Date;
  outcome: PromiseOutcome;
  /** While something is not known: the days if it came at once. */
  p50On: Date | null;
  p80On: Date | null;
  sentence: string;
  basis: PromiseBasis;
}

/** What it was computed from, as far as it can be read again. */
export interface PromiseBasis {
  /** P50 and P80 of the hands-on hours left. */
  hours: { p50: number; p80: number };
  handsAtOnce: number;
  fromMinute: number;
  others: readonly { from: string; hours: number }[];
  waits: readonly { words: string; until: string | null }[];
  /** The days until the P80, by cause; null where none is promised. */
  parts: PromiseParts | null;
  modelNumber: number | null;
  seed: number;
  draws: number;
}

export interface ToPromise {
  begins: Begins;
  work: readonly PromisedWork[];
  /** Whose own hours are not others'. */
  orderId: string | null;
  modelNumber: number | null;
  now: Date;
  timeZone: string;
}

/** Works the hours off by those who are in, beside what was promised to others. */
export async function makePromise(
  read: Tx,
  { begins, work, orderId, modelNumber, now, timeZone }: ToPromise,
): Promise<MadePromise> {
  const days = await daysAhead(read, begins);
  const others = await otherWork(read, { exceptOrderId: orderId, now, timeZone });
  const from = { day: days[0]!.day, minute: begins.minute };
  const promise = promiseOf({ from, days, work, others });
  return {
    beginsOn: begins.day,
    outcome: promise.kind,
    ...daysOf(promise),
    sentence: promise.sentence,
    basis: {
      hours: hoursOf(work),
      handsAtOnce: HANDS_AT_ONCE,
      fromMinute: begins.minute,
      others,
      waits: work.flatMap(({ wait }) => (wait ? [wait] : [])),
      parts: promise.kind === 'promised' ? promise.parts : null,
      modelNumber,
      seed: PROMISE_SEED,
      draws: PROMISE_DRAWS,
    },
  };
}

function daysOf(promise: ReturnPromise): { p50On: Date | null; p80On: Date | null } {
  const days =
    promise.kind === 'promised' ? promise : promise.kind === 'not_known' ? promise.atBest : null;
  const date = (day: string) => new Date(`${day}T00:00:00Z`);
  return days ? { p50On: date(days.p50), p80On: date(days.p80) } : { p50On: null, p80On: null };
}

function hoursOf(work: readonly PromisedWork[]): { p50: number; p80: number } {
  const sums = Float64Array.from({ length: work[0]?.draws.length ?? 0 }, (_, draw) =>
    work.reduce((sum, { draws }) => sum + (draws[draw] ?? 0), 0),
  ).sort();
  const at = (share: number) =>
    Math.round((sums[Math.max(0, Math.ceil(share * sums.length) - 1)] ?? 0) * 1000) / 1000;
  return { p50: at(0.5), p80: at(0.8) };
}
