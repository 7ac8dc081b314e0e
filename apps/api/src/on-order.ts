import type { Prisma, Tx } from '@fairlead/database';
import type { Context } from './context.ts';
import { partPriceFacts } from './part-price.ts';

const priced = { ...partPriceFacts, coreChargeMinor: true } as const satisfies Prisma.PartSelect;

/** Parts on the way to an item, as what stands for them in what its order comes to. */
export interface OnOrder {
  lineId: string;
  itemId: string;
  orderId: string;
  quantity: Prisma.Decimal;
  /** The lot that they will be, as far as its price is known: what one is to cost, and the core that the part has today. */
  lot: {
    id: string;
    coreChargeMinor: bigint | null;
    unitCost: Prisma.Decimal;
    part: Prisma.PartGetPayload<{ select: typeof partPriceFacts }>;
  };
}

interface Row {
  line_id: string;
  item_id: string;
  order_id: string;
  part_id: string;
  unit_cost: Prisma.Decimal;
  quantity: Prisma.Decimal;
}

/**
 * What was ordered for work and is not on it yet, of orders of work that go on: what is still to come, and what came and lies
 * there. Once it leaves its lot, wherever to, it is no longer on the way; so nothing counts twice. What a cancelled purchase order
 * was for is not on the way either.
 *
 * @param orderId of one order of work; left out: of all, for a list
 */
export async function onOrder(tx: Tx, orderId?: string): Promise<OnOrder[]> {
  const rows = await tx.$queryRaw<Row[]>`
    SELECT l.id AS line_id, l.item_id, i.order_id, l.part_id, l.unit_cost,
      greatest(l.quantity - moved.came, 0) + greatest(moved.came - moved.gone, 0) AS quantity
    FROM purchase_line l
    JOIN work_item i ON i.shop_id = l.shop_id AND i.id = l.item_id
    LEFT JOIN LATERAL (
      SELECT coalesce(sum(m.quantity) FILTER (WHERE m.kind = 'receive'), 0) AS came,
        coalesce(-sum(m.quantity) FILTER (WHERE m.quantity < 0), 0) AS gone
      FROM lot JOIN stock_movement m ON m.shop_id = lot.shop_id AND m.lot_id = lot.id
      WHERE lot.shop_id = l.shop_id AND lot.purchase_line_id = l.id) moved ON true
    WHERE l.shop_id = current_shop() AND l.item_id IS NOT NULL
      AND (${orderId ?? null}::uuid IS NULL OR i.order_id = ${orderId ?? null}::uuid)
      AND EXISTS (SELECT FROM purchase_event e WHERE e.shop_id = l.shop_id AND e.order_id = l.order_id AND e.kind = 'sent')
      AND NOT EXISTS (SELECT FROM purchase_event e WHERE e.shop_id = l.shop_id AND e.order_id = l.order_id AND e.kind = 'cancelled')
      AND NOT EXISTS (SELECT FROM order_event e WHERE e.shop_id = l.shop_id AND e.order_id = i.order_id AND e.kind IN ('released', 'closed', 'cancelled'))
    ORDER BY l.id`;
  const coming = rows.filter(({ quantity }) => quantity.greaterThan(0));
  return withParts(tx, coming);
}

const known = new WeakMap<Context, Promise<OnOrder[]>>();

/** The same of all orders of work, asked once a request, however many of them it shows. */
export function onOrderNow(context: Context): Promise<OnOrder[]> {
  const all = known.get(context) ?? onOrder(context.read);
  known.set(context, all);
  return all;
}

/** Lines of a purchase order that was not sent, as what they would be on the way. */
export const asOnOrder = (
  tx: Tx,
  lines: readonly {
    id: string;
    part: { id: string };
    item: { id: string; orderId: string };
    quantity: Prisma.Decimal;
    unitCost: Prisma.Decimal;
  }[],
): Promise<OnOrder[]> =>
  withParts(
    tx,
    lines.map(({ id, part, item, quantity, unitCost }) => ({
      ...{ line_id: id, item_id: item.id, order_id: item.orderId },
      ...{ part_id: part.id, unit_cost: unitCost, quantity },
    })),
  );

async function withParts(tx: Tx, rows: readonly Row[]): Promise<OnOrder[]> {
  if (rows.length === 0) return [];
  const parts = await tx.part.findMany({
    where: { id: { in: rows.map(({ part_id }) => part_id) } },
    select: priced,
  });
  const byId = new Map(parts.map((part) => [part.id, part]));
  return rows.flatMap((row) => {
    const part = byId.get(row.part_id);
    if (!part) return [];
    const { coreChargeMinor } = part;
    const lot = { id: row.line_id, coreChargeMinor, unitCost: row.unit_cost, part };
    return [
      {
        ...{ lineId: row.line_id, itemId: row.item_id, orderId: row.order_id },
        ...{ quantity: row.quantity, lot },
      },
    ];
  });
}

/** So many units at the work, in the shape of a movement: below 0 is issued. */
export const asIssued = (
  { quantity, lot }: Pick<OnOrder, 'quantity' | 'lot'>,
  at: Date,
): { quantity: Prisma.Decimal; at: Date; lot: OnOrder['lot'] } => ({
  quantity: quantity.negated(),
  at,
  lot,
});
