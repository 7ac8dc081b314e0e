import type { DueRule, InspectionKind, Tx } from '@fairlead/database';
import { notFound } from '../errors.ts';

/** What is on a quote before anything due is added to it. */
export interface QuotedAnyway {
  taskIds: readonly string[];
  /** The inspection that its package is. */
  inspection: InspectionKind | null;
}

/** Which inspection a rule asks for, that a package of the shop is; null: it asks for none. */
export const inspectionOf = (rule: DueRule): InspectionKind | null =>
  rule === 'annual' || rule === 'hundred_hour' ? rule : null;

/** Whether an inspection is what a rule asks for: an annual counts for the 100-hour, never the other way round (14 CFR 91.409(b)). */
export const serves = (inspection: InspectionKind | null, rule: DueRule): boolean =>
  inspection !== null &&
  (inspection === rule || (inspection === 'annual' && rule === 'hundred_hour'));

/**
 * What a package has on a quote anyway: its tasks, and at a flat price also what has to be opened for them, which is within the
 * price.
 *
 * @throws Refused when there is no such package
 */
export async function quotedAnyway(read: Tx, packageId: string | null): Promise<QuotedAnyway> {
  if (packageId === null) return { taskIds: [], inspection: null };
  const pack = await read.package.findUnique({
    where: { id: packageId },
    select: {
      inspection: true,
      priceMinor: true,
      tasks: {
        orderBy: { position: 'asc' },
        select: { taskId: true, task: { select: { openingId: true } } },
      },
    },
  });
  if (!pack) throw notFound('package');
  const { inspection, priceMinor } = pack;
  return {
    inspection,
    taskIds: pack.tasks.flatMap(({ taskId, task: { openingId } }) =>
      priceMinor === null || openingId === null ? [taskId] : [taskId, openingId],
    ),
  };
}

/** Packages on offer that are an inspection of an aircraft, those made for its model first. */
export async function inspectionPackages(read: Tx, aircraftId: string): Promise<string[]> {
  const { model } = await read.aircraft.findUniqueOrThrow({
    where: { id: aircraftId },
    select: { model: { select: { id: true, kind: true } } },
  });
  const packs = await read.package.findMany({
    where: {
      ...{ offered: true, inspection: { not: null } },
      OR: [
        { modelId: model.id },
        { modelId: null, modelKind: model.kind },
        { modelId: null, modelKind: null },
      ],
    },
    orderBy: [{ title: 'asc' }, { id: 'asc' }],
    select: { id: true, modelId: true, modelKind: true },
  });
  const near = (pack: (typeof packs)[number]) => (pack.modelId ? 0 : pack.modelKind ? 1 : 2);
  return packs.toSorted((one, other) => near(one) - near(other)).map(({ id }) => id);
}
