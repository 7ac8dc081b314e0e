import {
  HOURS_MODEL_VERSION,
  type HoursEstimate,
  type PlannedItem,
  packageOf,
} from '@fairlead/labour';
import type { Context } from '../context.ts';
import { modelBy } from '../hindsight/index.ts';

/** What asking the same model again gives. */
export interface Recomputed {
  /** True: every kept figure of hours came out the same, to the last digit kept. */
  same: boolean;
  modelNumber: number;
  fittedAt: Date;
  sentence: string;
}

const SIX = (value: number) => value.toFixed(6);
const figures = ({
  p10,
  p50,
  mean,
  p80,
  p90,
}: Pick<HoursEstimate, 'p10' | 'p50' | 'mean' | 'p80' | 'p90'>) =>
  [p10, p50, mean, p80, p90].map(SIX).join(' ');

interface Kept {
  hoursP10: { toNumber(): number } | null;
  hoursP50: { toNumber(): number } | null;
  hoursMean: { toNumber(): number } | null;
  hoursP80: { toNumber(): number } | null;
  hoursP90: { toNumber(): number } | null;
}
const kept = ({ hoursP10, hoursP50, hoursMean, hoursP80, hoursP90 }: Kept) =>
  [hoursP10, hoursP50, hoursMean, hoursP80, hoursP90]
    .map((value) => (value === null ? '' : SIX(value.toNumber())))
    .join(' ');

/**
 * Asks the model that made a revision's hours the same questions again, and compares.
 *
 * @returns null where the revision names no model, or sells no work
 */
export async function recomputeRevision({ read }: Context, id: string): Promise<Recomputed | null> {
  const revision = await read.quoteRevision.findUniqueOrThrow({
    where: { id },
    include: { lines: { orderBy: { position: 'asc' } } },
  });
  const lines = revision.lines.filter(({ asked }) => asked !== null);
  if (!revision.hoursModelId || revision.hoursSeed === null || lines.length === 0) return null;
  const head = await read.hoursModel.findUniqueOrThrow({
    where: { id: revision.hoursModelId },
    select: { number: true, fittedAt: true, version: true },
  });
  const about = { modelNumber: head.number, fittedAt: head.fittedAt };
  if (head.version !== HOURS_MODEL_VERSION)
    return {
      ...about,
      same: false,
      sentence: `Model ${head.number} was made by ${head.version}, which this program no longer reads: what was offered stays as it was kept.`,
    };
  const { predictor } = await modelBy(read, revision.hoursModelId);
  const estimates = lines.map(({ asked }) => predictor.estimate(asked as unknown as PlannedItem));
  const sum = packageOf(estimates, { seed: revision.hoursSeed });
  const differs = lines.find(
    (line, index) => kept(line) !== figures(estimates[index] as HoursEstimate),
  );
  const same = !differs && kept(revision) === figures(sum);
  return {
    ...about,
    same,
    sentence: same
      ? `Asked again, model ${head.number} gives the same hours for every line and for the whole.`
      : `Asked again, model ${head.number} gives other hours${differs ? ` for "${differs.title}"` : ' for the whole'}: what was offered stays as it was kept.`,
  };
}
