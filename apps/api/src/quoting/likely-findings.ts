import type { Tx } from '@fairlead/database';
import { type LikelyFinding, likelyFindings, packageWithFindings } from '@fairlead/labour';
import { Refused } from '../errors.ts';
import { type EstimatedTask, type EstimateTasksInput, estimateTasks } from './estimate-tasks.ts';
import { foundBefore } from './found-before.ts';
import type { WorkToDraw } from './work-to-draw.ts';

/** A kind of finding that may turn up, with the work and parts that it would take. */
export interface LikelyWork extends LikelyFinding {
  task: EstimatedTask;
  /** Net, minor units. */
  partsMinor: number;
}

/** Rarer than this it is not worth a line, nor does it move the sum. */
const WORTH_SAYING = 0.02;
/** Work that could take longer than a quote can say is not foretold. */
const MOST_HOURS = 10_000;
/** The likeliest. */
const MOST_SAID = 20;

/** What is likely to be found in a package on this aircraft, the likeliest first; nothing that is offered already. */
export async function likelyWork(
  read: Tx,
  packageId: string,
  aircraft: EstimateTasksInput['aircraft'],
  offered: readonly string[],
): Promise<LikelyWork[]> {
  const before = (await foundBefore(read, packageId)).filter(
    ({ taskId }) => !offered.includes(taskId),
  );
  if (before.length === 0) return [];
  const model = `${aircraft.model.maker} ${aircraft.model.name}`;
  const likely = likelyFindings(
    before.map(({ taskId, counts }) => ({ finding: taskId, counts })),
    model,
  )
    .filter(({ probability }) => probability >= WORTH_SAYING)
    .slice(0, MOST_SAID);
  // A finding whose work cannot be estimated is left out, rather than the whole quote.
  const { tasks } = await estimateTasks(read, {
    taskIds: likely.map(({ finding }) => finding),
    aircraft,
  }).catch((error: unknown) => {
    if (error instanceof Refused && error.code === 'NOT_ENOUGH_HISTORY') return { tasks: [] };
    throw error;
  });
  return likely.flatMap((finding) => {
    const task = tasks.find(({ id }) => id === finding.finding);
    const parts = before.find(({ taskId }) => taskId === finding.finding)?.partsMinor ?? 0;
    return task && Math.max(task.estimate.p90, task.estimate.mean) < MOST_HOURS
      ? [{ ...finding, task, partsMinor: parts }]
      : [];
  });
}

/** What is kept with a revision of what may be found. Amounts in minor units, net, as strings. */
export interface WithFindings {
  /** Hours of all its work with what is found. */
  hours: { p50: number; p80: number; p90: number };
  /** What the whole comes to with what is found: never offered, only foretold. */
  likely: string;
  p80: string;
  high: string;
  sentence: string;
  findings: {
    taskId: string;
    title: string;
    probability: number;
    from: number;
    to: number;
    seen: number;
    of: number;
    seenElsewhere: number;
    ofElsewhere: number;
    sentence: string;
    hoursP50: number;
    hoursP90: number;
    parts: string;
  }[];
}

/** As it is kept, or nothing. */
export const withFindingsOf = (kept: unknown): WithFindings | null =>
  typeof kept === 'object' && kept !== null ? (kept as WithFindings) : null;

export interface FindingsAsked {
  /** All work that is offered. */
  work: WorkToDraw;
  likely: readonly LikelyWork[];
  /** What is firm of the offer, minor units. */
  firm: bigint;
  /** Nine in ten of the offer itself come out under this, minor units. */
  high: bigint;
  seed: number;
  /** An amount in words, with its currency. */
  say: (amount: bigint) => string;
}

/**
 * Foretells the whole with what is likely to be found, in one simulation: what slows the firm work slows the found work too.
 *
 * The sums are of doubles and rounded to whole minor units at the end: a forecast, not an amount that anybody owes.
 *
 * @returns null where nothing is likely to be found
 */
export function foretellFindings(asked: FindingsAsked): WithFindings | null {
  const { work, likely, firm, high, seed, say } = asked;
  if (likely.length === 0) return null;
  const { items, billed, rateOf } = work;
  const found = likely.map(({ finding, probability, partsMinor, task }) => ({
    ...{ finding, probability, billed },
    parts: partsMinor,
    rate: rateOf(task.workKind),
    estimate: task.estimate,
  }));
  const drawn = packageWithFindings(items, found, { seed, rate: 0 });
  const { hours, cost } = { hours: drawn.hours.all, cost: drawn.cost.all };
  const whole = (value: number) => firm + BigInt(Math.round(value));
  // Two simulations differ by their dice: what may be found never makes the whole cheaper.
  const atLeast = (value: bigint, least: bigint) => (value > least ? value : least);
  const p90 = atLeast(whole(cost.p90), high);
  return {
    hours: { p50: hours.p50, p80: hours.p80, p90: hours.p90 },
    likely: String(whole(cost.p50)),
    p80: String(whole(cost.p80)),
    high: String(p90),
    sentence: `With what tends to be found in it, nine in ten should come out under ${say(p90)}. What is found is offered by itself first: nothing of it is agreed with this offer.`,
    findings: likely.map(({ task, partsMinor, finding: taskId, ...frequency }) => ({
      taskId,
      title: task.title,
      probability: frequency.probability,
      from: frequency.from,
      to: frequency.to,
      seen: frequency.seen,
      of: frequency.of,
      seenElsewhere: frequency.seenElsewhere,
      ofElsewhere: frequency.ofElsewhere,
      sentence: frequency.sentence,
      hoursP50: task.estimate.p50,
      hoursP90: task.estimate.p90,
      parts: String(partsMinor),
    })),
  };
}
