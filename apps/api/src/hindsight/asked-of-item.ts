import type { Prisma } from '@fairlead/database';
import type { PlannedItem } from '@fairlead/labour';
import { conditionsFrom } from '../conditions.ts';

/** What the model must know of an item. */
export const askedFacts = {
  title: true,
  jasc: true,
  task: { select: { key: true, standardHours: true } },
  plannedAccess: true,
  quoteLine: { select: { asked: true } },
} as const satisfies Prisma.WorkItemSelect;

export type AskedFacts = Prisma.WorkItemGetPayload<{ select: typeof askedFacts }>;

/** What the model in force is asked for an item: what was asked when it was quoted, or what is known of it. */
export function askedOfItem(
  { jasc, task, title, plannedAccess, quoteLine }: AskedFacts,
  of: { registration: string; model: { maker: string; name: string } },
): PlannedItem {
  if (quoteLine?.asked) return quoteLine.asked as unknown as PlannedItem;
  const place = conditionsFrom(plannedAccess);
  return {
    task: task?.key ?? title,
    jasc,
    standardHours: task?.standardHours?.toNumber(),
    model: `${of.model.maker} ${of.model.name}`,
    registration: of.registration,
    mechanics: [],
    place,
    statedFor: place,
  };
}
