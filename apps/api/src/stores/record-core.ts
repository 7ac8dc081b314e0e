import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey, givenQuantity, givenText } from '../given.ts';
import { lotForChange } from './lot-for-change.ts';
import { coresOwedByCustomers, coresOwedToSuppliers } from './queries.ts';

export interface RecordCoreInput {
  lotId: string;
  /** The work that it came from; null: it goes to the supplier. */
  itemId: string | null;
  quantity: string;
  words: string | null;
  clientEventId: string | null;
}

/** An old part came from the aircraft, or went to the supplier, so that no core is owed for it any more. Never more than is owed. */
export async function recordCore(context: Context, input: RecordCoreInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  const words = givenText(input.words, 'words', { most: 300 });
  const kind = input.itemId === null ? 'sent_back' : 'came_back';
  return context.write(async (tx) => {
    // load
    const lot = await lotForChange(tx, input.lotId);
    const known = key && (await tx.coreEvent.findUnique({ where: { id: key } }));
    if (known && (known.lotId !== lot.id || known.itemId !== input.itemId))
      throw new Refused(
        'CONFLICT',
        'This clientEventId was used before, for something else: needed is a new one.',
        'clientEventId',
      );
    if (known) return lot.id;
    const item =
      input.itemId === null
        ? null
        : await tx.workItem.findUnique({
            where: { id: input.itemId },
            select: { id: true, position: true, title: true },
          });
    if (input.itemId !== null && !item) throw notFound('item');
    const owed = item
      ? (await coresOwedByCustomers(tx, { lotId: lot.id })).find(({ itemId }) => itemId === item.id)
      : (await coresOwedToSuppliers(tx, { lotId: lot.id }))[0];
    // decide
    if (Number(quantity) > Number(owed?.quantity ?? '0'))
      throw new Refused(
        'AGAINST_RULE',
        `${quantity} of ${lot.name} cannot be handed over as cores: ${owed?.quantity ?? '0'} are owed ${item ? `by item ${item.position}, “${item.title}”` : `to ${lot.supplier}`}.`,
        'quantity',
      );
    // save
    await tx.coreEvent.create({
      data: {
        ...(key && { id: key }),
        lotId: lot.id,
        itemId: item?.id ?? null,
        kind,
        quantity,
        words,
        at: context.now(),
        byId: personId,
      },
      select: { id: true },
    });
    return lot.id;
  });
}
