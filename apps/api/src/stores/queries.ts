import { Prisma, type Tx } from '@fairlead/database';
import { type CoreOwed, coreOwed, minor } from '@fairlead/money';

/** A core that a customer's work owes the shop: for one lot on one item of work. */
export interface CustomerCore extends CoreOwed {
  lotId: string;
  itemId: string;
  orderId: string;
  /** When the first of those units was issued. */
  since: Date;
}

/** Cores that the shop owes the supplier of a lot. */
export interface SupplierCore extends CoreOwed {
  lotId: string;
  /** Old ones that came from customers for this lot and were not sent back yet. */
  atHand: string;
}

const coreFacts = {
  id: true,
  coreChargeMinor: true,
  movements: {
    where: { kind: { in: ['issue', 'return', 'receive'] } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: {
      kind: true,
      quantity: true,
      at: true,
      itemId: true,
      item: { select: { orderId: true } },
    },
  },
  cores: { select: { kind: true, quantity: true, itemId: true } },
} satisfies Prisma.LotSelect;

type CoreLot = Prisma.LotGetPayload<{ select: typeof coreFacts }>;

const sum = (quantities: readonly Prisma.Decimal[]) =>
  quantities.reduce((total, each) => total.plus(each), new Prisma.Decimal(0));

const coreLots = (read: Tx, where: Prisma.LotWhereInput): Promise<CoreLot[]> =>
  read.lot.findMany({
    where: { coreChargeMinor: { not: null }, ...where },
    orderBy: [{ receivedOn: 'asc' }, { id: 'asc' }],
    select: coreFacts,
  });

/** What of one lot customers' work still owes, item by item. */
function owedByCustomers({ id: lotId, coreChargeMinor, movements, cores }: CoreLot) {
  const items = new Map(
    movements.flatMap(({ itemId, item, at }) =>
      item && itemId ? [[itemId, { ...item, at }]] : [],
    ),
  );
  return [...items].flatMap(([itemId, { orderId }]): CustomerCore[] => {
    const moved = movements.filter((each) => each.itemId === itemId);
    const of = (kind: 'issue' | 'return') =>
      sum(moved.filter((each) => each.kind === kind).map(({ quantity }) => quantity.abs()));
    const owed = coreOwed({
      charge: minor(coreChargeMinor ?? 0n),
      taken: of('issue').toFixed(),
      returned: of('return').toFixed(),
      handedOver: sum(
        cores.filter((core) => core.itemId === itemId).map(({ quantity }) => quantity),
      ).toFixed(),
    });
    const [first] = moved;
    return owed.quantity === '0' || !first
      ? []
      : [{ lotId, itemId, orderId, since: first.at, ...owed }];
  });
}

/**
 * The cores that customers' work owes the shop, the oldest first; of one order where one is named. This is what an invoice
 * may charge: `quantity` units, `amount` minor units, exact.
 */
export async function coresOwedByCustomers(
  read: Tx,
  { orderId, lotId }: { orderId?: string; lotId?: string } = {},
): Promise<CustomerCore[]> {
  const lots = await coreLots(read, {
    ...(lotId && { id: lotId }),
    movements: { some: { kind: 'issue', ...(orderId && { item: { orderId } }) } },
  });
  return lots
    .flatMap(owedByCustomers)
    .filter((core) => orderId === undefined || core.orderId === orderId)
    .toSorted((one, other) => one.since.getTime() - other.since.getTime());
}

/** The cores that the shop owes its suppliers, lot by lot: one for each unit delivered, less what was sent back. */
export async function coresOwedToSuppliers(
  read: Tx,
  { lotId }: { lotId?: string } = {},
): Promise<SupplierCore[]> {
  const lots = await coreLots(read, lotId ? { id: lotId } : {});
  return lots.flatMap(({ id, coreChargeMinor, movements, cores }): SupplierCore[] => {
    const of = (kind: 'came_back' | 'sent_back') =>
      sum(cores.filter((core) => core.kind === kind).map(({ quantity }) => quantity));
    const owed = coreOwed({
      charge: minor(coreChargeMinor ?? 0n),
      taken: sum(
        movements.filter(({ kind }) => kind === 'receive').map(({ quantity }) => quantity),
      ).toFixed(),
      returned: '0',
      handedOver: of('sent_back').toFixed(),
    });
    const atHand = of('came_back').minus(of('sent_back'));
    return owed.quantity === '0'
      ? []
      : [{ lotId: id, atHand: atHand.isNegative() ? '0' : atHand.toFixed(), ...owed }];
  });
}
