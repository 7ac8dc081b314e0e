import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey, givenQuantity, givenText, sayDay } from '../given.ts';
import { shopToday } from '../today.ts';
import { givenCoreCharge } from './given-core-charge.ts';
import { lineToReceive } from './line-to-receive.ts';

export interface ReceiveLotInput {
  partId: string;
  supplier: string;
  batch: string;
  tag: string | null;
  quantity: string;
  unitCost: string;
  receivedOn: Date | null;
  shelfLifeUntil: Date | null;
  bin: string | null;
  /** For one unit, minor units. Null: none; left out: what the part has now. */
  coreCharge?: bigint | null | undefined;
  /** The line of a purchase order that it was ordered by. */
  purchaseLineId?: string | null;
  /** Made by the page; it becomes the lot's key, so that a delivery sent twice is one. */
  clientEventId: string | null;
}

/** Takes a delivery into stores, with its batch and its release certificate. */
export async function receiveLot(context: Context, input: ReceiveLotInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const kept = {
    supplier: givenText(input.supplier, 'supplier', { least: 1, most: 120 }),
    batch: givenText(input.batch, 'batch', { least: 1, most: 80 }),
    tag: givenText(input.tag, 'tag', { most: 80 }),
    bin: givenText(input.bin, 'bin', { most: 40 }),
    unitCost: givenQuantity(input.unitCost, 'unitCost', {
      most: 1_000_000,
      decimals: 4,
      zero: true,
    }),
  };
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  const today = await shopToday(context);
  const receivedOn = input.receivedOn ?? today;
  if (receivedOn > today)
    throw new Refused(
      'BAD_INPUT',
      `receivedOn is ${sayDay(receivedOn)}: today is ${sayDay(today)}.`,
      'receivedOn',
    );

  const coreCharge = givenCoreCharge(input.coreCharge);

  return context.write(async (tx) => {
    // load
    const known =
      key && (await tx.lot.findUnique({ where: { id: key }, select: { id: true, partId: true } }));
    if (known && known.partId !== input.partId)
      throw new Refused(
        'CONFLICT',
        'This clientEventId was used before, for another part: needed is a new one.',
        'clientEventId',
      );
    if (known) return known.id;
    const part = await tx.part.findUnique({
      where: { id: input.partId },
      select: { id: true, coreChargeMinor: true },
    });
    if (!part) throw notFound('part');
    const purchaseLineId = input.purchaseLineId
      ? await lineToReceive(tx, { lineId: input.purchaseLineId, partId: part.id, quantity })
      : null;
    // save
    const { id: lotId } = await tx.lot.create({
      data: {
        ...(key && { id: key }),
        partId: part.id,
        purchaseLineId,
        ...kept,
        receivedOn,
        shelfLifeUntil: input.shelfLifeUntil,
        coreChargeMinor: coreCharge === undefined ? part.coreChargeMinor : coreCharge,
      },
      select: { id: true },
    });
    await tx.stockMovement.create({
      data: { lotId, kind: 'receive', quantity, at: context.now(), byId: personId },
    });
    return lotId;
  });
}
