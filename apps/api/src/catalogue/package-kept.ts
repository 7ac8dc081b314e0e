import type { Prisma, Tx } from '@fairlead/database';
import { sayDay } from '../given.ts';

const facts = {
  title: true,
  inspection: true,
  modelKind: true,
  modelId: true,
  priceMinor: true,
  madeFrom: true,
  madeFromOn: true,
  offered: true,
  tasks: {
    orderBy: { position: 'asc' },
    select: { task: { select: { key: true, title: true } } },
  },
} as const satisfies Prisma.PackageSelect;

/** Keeps what a package is at a revision, as it can be read years later, whatever becomes of its tasks. */
export async function keepRevision(
  tx: Tx,
  packageId: string,
  revision: number,
  byId: string,
): Promise<void> {
  const { tasks, priceMinor, madeFromOn, ...rest } = await tx.package.findUniqueOrThrow({
    where: { id: packageId },
    select: facts,
  });
  await tx.packageRevision.create({
    data: {
      packageId,
      revision,
      byId,
      content: {
        ...rest,
        priceMinor: priceMinor === null ? null : `${priceMinor}`,
        madeFromOn: madeFromOn && sayDay(madeFromOn),
        tasks: tasks.map(({ task: { key, title } }) => ({ key, title })),
      },
    },
    select: { id: true },
  });
}
