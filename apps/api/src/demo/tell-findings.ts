import type { Tx } from '@fairlead/database';
import { currency, parseAmount } from '@fairlead/money';
import { readDemo } from '../../../../prisma/demo/data.ts';
import type { DemoClock } from './demo-clock.ts';
import type { Keys } from './keys.ts';

/** What the manager tells of the years before the shop kept its work here: what turned up in which package, how often. */
export async function tellFindings(
  tx: Tx,
  { tasks, packages, models, people }: Record<'tasks' | 'packages' | 'models' | 'people', Keys>,
  clock: DemoClock,
): Promise<void> {
  const money = currency(readDemo('shop.json').currency);
  const manager = readDemo('people.json').find(({ roles }) => roles.includes('manager'));
  if (!manager) throw new RangeError("The demo's people.json has no manager.");
  await tx.toldFinding.createMany({
    data: readDemo('packages.json').packages.flatMap((pack) => {
      const [only, ...more] = pack.models;
      return pack.toldFindings.map(({ task, seen, of, parts }) => ({
        packageId: packages.of(pack.key),
        taskId: tasks.of(task),
        modelId: only !== undefined && more.length === 0 ? models.of(only) : null,
        seen,
        of,
        partsMinor: parseAmount(parts, money),
        note: 'Counted in the job book.',
        toldAt: clock.at({ day: -30, time: '08:00' }),
        toldById: people.of(manager.key),
      }));
    }),
  });
}
