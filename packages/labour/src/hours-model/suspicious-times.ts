import student from '@stdlib/stats-base-dists-t';
import { hours } from '../hours.ts';
import type { DoneItem } from './coding.ts';
import type { HoursEstimate, HoursPredictor } from './predictor.ts';

/** An item to be looked at, with what only the clock and the order know. */
export type WatchedItem = DoneItem & {
  readonly id: string;
  /** The order it belongs to: another task of the same order may be the one that was worked on. */
  readonly order?: string | undefined;
  /** Hours that its people were in between its first and its last stretch, all people added. */
  readonly presentHours?: number | undefined;
};

/** What makes a time suspicious, with the figures behind it. */
export type SuspicionReason =
  /** More hours than its people were in. */
  | { readonly kind: 'impossible'; readonly presentHours: number }
  /** Far longer than such an item takes: a clock left running. */
  | { readonly kind: 'too-long'; readonly times: number; readonly oneIn: number }
  /** Far shorter: a clock started late, or work clocked elsewhere. */
  | { readonly kind: 'too-short'; readonly times: number; readonly oneIn: number }
  /** It fits another task of its order far better. */
  | {
      readonly kind: 'wrong-task';
      readonly otherTask: string;
      readonly otherP50: number;
      /** How many times likelier the hours are for the other task. */
      readonly likelier: number;
    };

export type SuspiciousTime = {
  readonly id: string;
  readonly hours: number;
  readonly expected: { readonly p10: number; readonly p50: number; readonly p90: number };
  /** How much the item counts in a fit, 1 as any other: nothing is left out before somebody decides. */
  readonly weight: number;
  readonly reasons: readonly (SuspicionReason & { readonly words: string })[];
};

/** When to ask. Data, not constants of a formula; common practice, no source. */
export type SuspicionLimits = {
  /** Ask when fewer than one in so many would be as long, or as short. */
  readonly oneIn: number;
  /** Ask when another task's forecast makes the hours so many times likelier. */
  readonly likelier: number;
  /** Share by which hours may pass those present: clocks are rounded. */
  readonly presentTolerance: number;
};

export const SUSPICION_LIMITS: SuspicionLimits = {
  oneIn: 200,
  likelier: 30,
  presentTolerance: 0.02,
};

type Expected = { readonly location: number; readonly scale: number };

const inHours = (value: number): string => `${value.toPrecision(value < 10 ? 2 : 3)} h`;
const inTimes = (value: number): string => value.toPrecision(2);

function wordsOf(reason: SuspicionReason, clocked: number, p50: number): string {
  switch (reason.kind) {
    case 'impossible':
      return `${inHours(clocked)} were clocked, but its people were in for ${inHours(reason.presentHours)}.`;
    case 'too-long':
      return `${inTimes(reason.times)} times the ${inHours(p50)} that it should take; fewer than one in ${Math.floor(reason.oneIn)} would be so long. Was a clock left running?`;
    case 'too-short':
      return `Only ${inHours(clocked)} where ${inHours(p50)} would be usual; fewer than one in ${Math.floor(reason.oneIn)} would be so short. Was the clock started late, or on another task?`;
    case 'wrong-task':
      return `${inHours(clocked)} is what "${reason.otherTask}" of the same order takes (${inHours(reason.otherP50)}). Was it clocked to the wrong task?`;
  }
}

/**
 * What the model expected of an item without having seen it: with leverage h = w·v/σ² for a centre of variance v, the
 * centre moves by h·e/(1 − h) and its variance grows to v/(1 − h). Exact for a given weight and given spreads.
 */
function without(
  estimate: HoursEstimate,
  y: number,
  weight: number,
  { sigma, stretch }: { sigma: number; stretch: number },
): Expected {
  const { location } = estimate.predictive;
  const v = estimate.image.reduce((sum, value) => sum + value * value, 0);
  const leverage = Math.min(0.99, (weight * v) / sigma ** 2);
  const unmet = estimate.unmet.reduce((sum, { loading }) => sum + loading ** 2, 0);
  return {
    location: location - (leverage * (y - location)) / (1 - leverage),
    scale: Math.sqrt(v / (1 - leverage) + unmet + (stretch * sigma) ** 2),
  };
}

/**
 * Suspicious times: items whose hours the model cannot believe, each with its reasons, the least believable first. It
 * proposes; a person decides.
 *
 * Each is held against what the model expects of it without itself, with the heavy tails of a Student-t, since jobs do go
 * wrong. A lower bound is no time: only `impossible` can be said of it.
 *
 * @param predictor a model that was fitted with these items
 * @throws RangeError for hours, or hours present, that are not finite and above 0
 */
export function suspiciousTimes(
  predictor: HoursPredictor,
  items: readonly WatchedItem[],
  limits: SuspicionLimits = SUSPICION_LIMITS,
): SuspiciousTime[] {
  const { priors, lnSigma, stretch } = predictor.model;
  const df = priors.robustDf;
  const sigma = Math.exp(lnSigma);
  const tasksOf = new Map<string, Map<string, WatchedItem>>();
  for (const item of items) {
    if (item.order === undefined) continue;
    const tasks = tasksOf.get(item.order) ?? new Map<string, WatchedItem>();
    tasksOf.set(item.order, tasks.set(item.task, item));
  }
  const density = (y: number, { location, scale }: Expected) =>
    student.pdf((y - location) / scale, df) / scale;

  const found = items.flatMap((item) => {
    const y = Math.log(hours(item.hours));
    const estimate = predictor.estimate(item);
    const { p10, p50, p90, predictive } = estimate;
    const residual = (y - predictive.location) / sigma;
    const weight = (df + 1) / (df + residual ** 2);
    const own = without(estimate, y, item.censored ? 0 : weight, { sigma, stretch });
    const reasons: SuspicionReason[] = [];
    if (item.presentHours !== undefined) {
      const present = hours(item.presentHours);
      if (item.hours > present * (1 + limits.presentTolerance)) {
        reasons.push({ kind: 'impossible', presentHours: present });
      }
    }
    const z = (y - own.location) / own.scale;
    const tail = student.cdf(-Math.abs(z), df);
    const usual = Math.exp(own.location);
    if (!item.censored) {
      const others = [...(tasksOf.get(item.order ?? '')?.values() ?? [])].filter(
        ({ task }) => task !== item.task,
      );
      let best: SuspicionReason | undefined;
      let most = limits.likelier;
      for (const other of others) {
        const theirs = predictor.estimate({ ...other, mechanics: item.mechanics });
        const likelier = density(y, theirs.predictive) / density(y, own);
        if (likelier <= most) continue;
        most = likelier;
        best = { kind: 'wrong-task', otherTask: other.task, otherP50: theirs.p50, likelier };
      }
      if (best !== undefined) reasons.push(best);
      if (tail * limits.oneIn < 1) {
        const kind = z > 0 ? ('too-long' as const) : ('too-short' as const);
        reasons.push({ kind, times: item.hours / usual, oneIn: 1 / tail });
      }
    }
    if (reasons.length === 0) return [];
    const said = reasons.map((reason) => ({
      ...reason,
      words: wordsOf(reason, item.hours, usual),
    }));
    return [
      {
        tail,
        time: {
          id: item.id,
          hours: item.hours,
          expected: { p10, p50, p90 },
          weight,
          reasons: said,
        },
      },
    ];
  });
  return found.sort((a, b) => a.tail - b.tail).map(({ time }) => time);
}
