import type { Prisma, Tx } from '@fairlead/database';
import { type HoursEstimate, packageItems } from '@fairlead/labour';
import { sayDay } from '../../given.ts';
import { askedFacts, askedOfItem, type ShopModel } from '../../hindsight/index.ts';
import { itemFacts, itemState } from '../../states.ts';
import type { WorkToDraw } from './draw-work.ts';
import { type Begins, clockedHours } from './shop-ahead.ts';
import { expectationFacts, waitOf } from './waits.ts';

export const openItemFacts = {
  ...itemFacts,
  ...askedFacts,
  id: true,
  events: {
    orderBy: itemFacts.events.orderBy,
    select: { ...itemFacts.events.select, at: true },
  },
  stretches: { select: { startedAt: true, endedAt: true } },
  expectations: expectationFacts,
} as const satisfies Prisma.WorkItemSelect;

export type OpenItemRow = Prisma.WorkItemGetPayload<{ select: typeof openItemFacts }>;
export interface OfAircraft {
  registration: string;
  model: { maker: string; name: string };
}

/** Items of an order that are not done, as draws want them. One that nobody quoted takes what the shop's model says of its kind. */
export function openItems(
  items: readonly OpenItemRow[],
  of: OfAircraft,
  { model, now, today }: { model: ShopModel; now: Date; today: Begins },
): { estimate: HoursEstimate; clocked: number; wait: WorkToDraw['wait'] }[] {
  return items
    .filter((item) => ['open', 'in_work', 'waiting'].includes(itemState(item)))
    .map((item) => ({
      estimate: model.predictor.estimate(askedOfItem(item, of)),
      clocked: clockedHours(item.stretches, now),
      wait: waitOf(item, sayDay(today.day)),
    }));
}

/** Estimates of one package, each with what was clocked and what it waits for. */
export const toDraw = (
  items: readonly { estimate: HoursEstimate; clocked: number; wait: WorkToDraw['wait'] }[],
): WorkToDraw[] => {
  const shared = packageItems(items.map(({ estimate }) => estimate));
  return items.map(({ clocked, wait }, index) => ({ item: shared[index]!, clocked, wait }));
};

/** Parts that are offered and not in the stores in that quantity, each with the day on which it is expected, where somebody said one. */
export async function missingParts(
  read: Tx,
  parts: readonly { id: string; title: string; quantity: string }[],
  today: Begins,
): Promise<NonNullable<WorkToDraw['wait']>[]> {
  const rows = await read.part.findMany({
    where: { id: { in: parts.map(({ id }) => id) } },
    select: { id: true, lots: { select: { onHand: true } }, expectations: expectationFacts },
  });
  const byId = new Map(rows.map((row) => [row.id, row]));
  return parts.flatMap(({ id, title, quantity }) => {
    const row = byId.get(id);
    const onHand = row?.lots.reduce((sum, lot) => sum + lot.onHand.toNumber(), 0) ?? 0;
    if (onHand >= Number(quantity)) return [];
    const day = row?.expectations[0]?.expectedOn;
    const until = waitOf(
      {
        title,
        events: [{ kind: 'waiting', waitingFor: 'parts', at: new Date(0) }],
        expectations: day
          ? [{ what: title, partId: id, expectedOn: day, notedAt: new Date() }]
          : [],
      },
      sayDay(today.day),
    );
    return [{ words: `“${title}”`, until: until?.until ?? null }];
  });
}
