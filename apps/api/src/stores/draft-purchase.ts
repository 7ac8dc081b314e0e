import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey, givenQuantity, givenText, sayDay } from '../given.ts';
import { givenMailAddress } from '../mail-address.ts';
import { shopToday } from '../today.ts';
import { workToBuyFor } from './work-to-buy-for.ts';

export interface DraftPurchaseInput {
  supplier: string;
  supplierEmail: string | null;
  expectedOn: Date | null;
  note: string | null;
  lines: readonly {
    partId: string;
    quantity: string;
    unitCost: string;
    /** The work that it is bought for; null: for the shop's stock. */
    itemId: string | null;
  }[];
  /** Made by the page; it becomes the order's key, so that what is sent twice is one order. */
  clientEventId: string | null;
}

const MOST_LINES = 100;
/** Puts together what is to be ordered of one supplier; it has its number from now on. */
export async function draftPurchase(context: Context, input: DraftPurchaseInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const key = givenKey(input.clientEventId);
  const supplier = givenText(input.supplier, 'supplier', { least: 1, most: 120 });
  const supplierEmail = givenMailAddress(input.supplierEmail, 'supplierEmail') ?? '';
  const note = givenText(input.note, 'note', { most: 500 });
  const { expectedOn, lines } = input;
  const today = await shopToday(context);
  if (expectedOn && expectedOn < today)
    throw new Refused(
      'BAD_INPUT',
      `expectedOn is ${sayDay(expectedOn)}: today is ${sayDay(today)}.`,
      'expectedOn',
    );
  if (lines.length < 1 || lines.length > MOST_LINES)
    throw new Refused(
      'BAD_INPUT',
      `The order has ${lines.length} lines: needed are 1 to ${MOST_LINES}.`,
      'lines',
    );
  const wanted = lines.map(({ partId, quantity, unitCost, itemId }, index) => ({
    position: index + 1,
    partId,
    itemId,
    quantity: givenQuantity(quantity, 'quantity', { most: 100_000, decimals: 3 }),
    unitCost: givenQuantity(unitCost, 'unitCost', { most: 1_000_000, decimals: 4, zero: true }),
  }));
  return context.write(async (tx) => {
    // load
    const known =
      key && (await tx.purchaseOrder.findUnique({ where: { id: key }, select: { id: true } }));
    if (known) return known.id;
    const ids = [...new Set(wanted.map(({ partId }) => partId))];
    if ((await tx.part.count({ where: { id: { in: ids } } })) !== ids.length)
      throw notFound('part');
    await workToBuyFor(tx, wanted);
    const { currency } = await tx.shop.findFirstOrThrow({ select: { currency: true } });
    // save
    const { id } = await tx.purchaseOrder.create({
      data: {
        ...(key && { id: key }),
        supplier,
        supplierEmail,
        expectedOn,
        note,
        currency,
        draftedAt: context.now(),
        byId: personId,
      },
      select: { id: true },
    });
    await tx.purchaseLine.createMany({ data: wanted.map((line) => ({ ...line, orderId: id })) });
    return id;
  });
}
