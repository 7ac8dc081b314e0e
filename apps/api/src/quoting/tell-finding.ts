import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { textUpTo } from './offer-terms.ts';

export interface TellFindingInput {
  packageId: string;
  taskId: string;
  modelId: string | null;
  seen: number;
  of: number;
  /** Net, minor units. */
  parts: bigint | null;
  note: string | null;
}

const MOST_PACKAGES = 100_000;
const MOST_PARTS = 1_000_000_000_00n;

/** Keeps what the manager tells of earlier years: in so many of these packages this work turned up. */
export async function tellFinding(context: Context, input: TellFindingInput): Promise<string> {
  const { personId } = await allow(context, 'manager');
  const { packageId, taskId, modelId, seen, of, parts } = input;
  if (!(seen >= 0 && seen <= of && of <= MOST_PACKAGES))
    throw new Refused(
      'BAD_INPUT',
      `Found ${seen} times in ${of} was refused: needed is 0 or more times found, in at least as many packages, at most ${MOST_PACKAGES}.`,
      seen < 0 || seen > of ? 'seen' : 'of',
    );
  if (parts !== null && (parts < 0n || parts > MOST_PARTS))
    throw new Refused(
      'BAD_INPUT',
      `Parts of ${parts} minor units were refused: needed is 0 to ${MOST_PARTS}.`,
      'parts',
    );
  const note = textUpTo(input.note, 1000, 'note');
  await context.write(async (tx) => {
    // load
    const pack = await tx.package.findUnique({
      where: { id: packageId },
      select: { title: true, tasks: { where: { taskId }, select: { id: true } } },
    });
    const task = await tx.task.findUnique({ where: { id: taskId }, select: { title: true } });
    if (!pack) throw notFound('package');
    if (!task) throw notFound('task');
    if (modelId && !(await tx.aircraftModel.findUnique({ where: { id: modelId } })))
      throw notFound('model');
    // decide
    if (pack.tasks.length > 0)
      throw new Refused(
        'AGAINST_RULE',
        `"${task.title}" is part of "${pack.title}" itself: what is found is work beyond the package.`,
        'taskId',
      );
    // save
    await tx.toldFinding.create({
      data: {
        packageId,
        taskId,
        modelId,
        seen,
        of,
        partsMinor: parts,
        note,
        toldAt: context.now(),
        toldById: personId,
      },
      select: { id: true },
    });
  });
  return packageId;
}
