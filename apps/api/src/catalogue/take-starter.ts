import {
  cautionsOfItem,
  type InspectedAircraft,
  STARTER_DATA,
  STARTER_DATA_ON,
  starterPackages,
} from '@fairlead/airworthiness';
import type { AircraftKind, Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { newKey } from './new-key.ts';
import { keepRevision } from './package-kept.ts';

export interface TakeStarterInput {
  /** Key of the starter package. */
  starter: string;
  /** For a kind of aircraft, or for one model. */
  modelKind: AircraftKind | null;
  modelId: string | null;
}

export const inspectedAs: Record<AircraftKind, InspectedAircraft> = {
  helicopter_two_seat: 'helicopter',
  helicopter_four_seat: 'helicopter',
  airplane_single: 'airplane',
  airplane_twin: 'airplane',
};

/**
 * Copies a starter package into the shop, whose own it is from then on. Tasks that an earlier copy brought are taken as the
 * shop has changed them. No task gets a standard time: nobody but the shop knows how long it takes there.
 */
export async function takeStarter(context: Context, input: TakeStarterInput): Promise<string> {
  const { shopId, personId } = await allow(context, 'manager');
  const starter = starterPackages().find(({ key }) => key === input.starter);
  if (!starter)
    throw new Refused(
      'BAD_INPUT',
      `There is no starter package "${input.starter.slice(0, 60)}": needed is one of ${starterPackages()
        .map(({ key }) => key)
        .join(', ')}.`,
      'starter',
    );
  return context.write(async (tx) => {
    await holdFor(tx, 'catalogue', 'packages');
    const on = await madeFor(tx, input);
    if (on.aircraft !== starter.aircraft)
      throw new Refused(
        'BAD_INPUT',
        `“${starter.title}” is for a ${starter.aircraft}, and ${on.words}: choose the one that fits.`,
        'starter',
      );
    const there = await tx.task.findMany({
      where: { key: { in: starter.items.map(({ key }) => key) } },
      select: { key: true },
    });
    const known = new Set(there.map(({ key }) => key));
    await tx.task.createMany({
      data: starter.items
        .filter(({ key }) => !known.has(key))
        .map((item) => ({
          shopId,
          key: item.key,
          title: item.title,
          jasc: item.jasc,
          critical: item.critical ?? false,
          cautions: cautionsOfItem(item),
          reference: `Scope: 14 CFR part 43, ${item.paragraph}. How: the maker’s current manual.`,
          checklist: [...item.checklist],
          paragraphs: [item.paragraph],
        })),
    });
    const tasks = await tx.task.findMany({
      where: { key: { in: starter.items.map(({ key }) => key) } },
      select: { id: true, key: true },
    });
    const ids = new Map(tasks.map(({ id, key }) => [key, id]));
    const packages = await tx.package.findMany({ select: { key: true } });
    const { id } = await tx.package.create({
      data: {
        shopId,
        key: newKey(starter.title, new Set(packages.map(({ key }) => key))),
        title: starter.title,
        inspection: starter.inspection,
        modelKind: input.modelKind,
        modelId: input.modelId,
        madeFrom: STARTER_DATA,
        madeFromOn: new Date(STARTER_DATA_ON),
      },
      select: { id: true },
    });
    await tx.packageTask.createMany({
      data: starter.items.map(({ key }, index) => ({
        packageId: id,
        taskId: ids.get(key)!,
        position: index + 1,
      })),
    });
    await keepRevision(tx, id, 1, personId);
    return id;
  });
}

async function madeFor(tx: Tx, { modelKind, modelId }: TakeStarterInput) {
  if ((modelKind === null) === (modelId === null))
    throw new Refused(
      'BAD_INPUT',
      'A starter package is taken for one model or for one kind of aircraft: needed is one of them.',
      'modelKind',
    );
  if (modelKind !== null)
    return { aircraft: inspectedAs[modelKind], words: 'the kind that was named is another' };
  const model = await tx.aircraftModel.findUnique({
    where: { id: modelId ?? '' },
    select: { kind: true, maker: true, name: true },
  });
  if (!model) throw notFound('model');
  return {
    aircraft: inspectedAs[model.kind],
    words: `the ${model.maker} ${model.name} is none`,
  };
}
