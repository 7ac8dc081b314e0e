import type { AircraftKind, InspectionKind, Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { newKey } from './new-key.ts';
import { keepRevision } from './package-kept.ts';

export interface SavePackageInput {
  /** Null: a new one. */
  packageId: string | null;
  /** The revision that was read; null for a new one. */
  fromRevision: number | null;
  title: string;
  inspection: InspectionKind | null;
  modelKind: AircraftKind | null;
  modelId: string | null;
  /** Net, minor units; null: by time and materials. */
  price: bigint | null;
  madeFrom: string;
  madeFromOn: Date | null;
  /** False: no new quote is made of it. */
  offered: boolean;
  /** In the order in which it is done. */
  taskIds: readonly string[];
}

const MOST_TASKS = 150;
const EARLIEST = new Date('1950-01-01');

/** Puts a package together, or makes its next revision. Quotes made of an earlier one stay as they are. */
export async function savePackage(context: Context, input: SavePackageInput): Promise<string> {
  const { shopId, personId } = await allow(context, 'manager');
  const data = await given(context, input);
  return context.write(async (tx) => {
    // load
    const { packageId } = input;
    await holdFor(tx, 'catalogue', packageId ?? 'packages');
    await refuseUnknown(tx, input);
    const before = packageId
      ? await tx.package.findUnique({
          where: { id: packageId },
          select: { title: true, revision: true },
        })
      : null;
    // decide
    if (packageId && !before) throw notFound('package');
    if (before && before.revision !== input.fromRevision)
      throw new Refused(
        'CONFLICT',
        `“${before.title}” is at revision ${before.revision} by now, and you changed revision ${input.fromRevision ?? 'none'}: read it again before you change it.`,
        'fromRevision',
      );
    const revision = (before?.revision ?? 0) + 1;
    // save
    const id = packageId ?? (await create(tx, { ...data, shopId }));
    await tx.package.update({
      where: { id },
      data: { ...data, revision },
      select: { id: true },
    });
    await tx.packageTask.deleteMany({ where: { packageId: id } });
    await tx.packageTask.createMany({
      data: input.taskIds.map((taskId, index) => ({ packageId: id, taskId, position: index + 1 })),
    });
    await keepRevision(tx, id, revision, personId);
    return id;
  });
}

async function create(
  tx: Tx,
  data: Awaited<ReturnType<typeof given>> & { shopId: string },
): Promise<string> {
  const taken = await tx.package.findMany({ select: { key: true } });
  const key = newKey(data.title, new Set(taken.map((each) => each.key)));
  const { id } = await tx.package.create({ data: { ...data, key }, select: { id: true } });
  return id;
}

async function given(context: Context, input: SavePackageInput) {
  const { inspection, modelKind, modelId, price, madeFromOn, offered, taskIds } = input;
  const refuse = (field: string, words: string) => new Refused('BAD_INPUT', words, field);
  if (taskIds.length < 1 || taskIds.length > MOST_TASKS)
    throw refuse(
      'taskIds',
      `A package has ${taskIds.length} tasks: needed are 1 to ${MOST_TASKS}.`,
    );
  if (new Set(taskIds).size !== taskIds.length)
    throw refuse('taskIds', 'A task is in the package twice: needed is each of them once.');
  if (modelKind !== null && modelId !== null)
    throw refuse('modelId', 'A package is for a model or for a kind of aircraft, not for both.');
  if (price !== null && price <= 0n)
    throw refuse(
      'price',
      `price is ${price}: needed is more than 0, or none where it is sold by time.`,
    );
  const today = await shopToday(context);
  if (madeFromOn !== null && (madeFromOn > today || madeFromOn < EARLIEST))
    throw refuse(
      'madeFromOn',
      `The data were said to be of ${sayDay(madeFromOn)}: needed is a day from ${sayDay(EARLIEST)} to today.`,
    );
  const madeFrom = givenText(input.madeFrom, 'madeFrom', { most: 300 });
  if (inspection !== null && madeFrom === '')
    throw refuse(
      'madeFrom',
      'An inspection names the data that its list was made from, such as the maker’s manual and its revision.',
    );
  return {
    title: givenText(input.title, 'title', { least: 3, most: 200 }),
    inspection,
    modelKind,
    modelId,
    priceMinor: price,
    madeFrom,
    madeFromOn,
    offered,
  };
}

async function refuseUnknown(tx: Tx, { taskIds, modelId }: SavePackageInput): Promise<void> {
  const found = await tx.task.count({ where: { id: { in: [...taskIds] } } });
  if (found !== taskIds.length) throw notFound('task');
  if (modelId && !(await tx.aircraftModel.findUnique({ where: { id: modelId } })))
    throw notFound('model');
}
