import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { type Noted, notedMoment } from './item-event.ts';

/** Records that a person was shown the cautions of an item and said so. Once is enough; twice does no harm. */
export async function readCautions(
  context: Context,
  input: { itemId: string; noted?: Noted | null },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const { at } = notedMoment(input.noted, context.now());
  return context.write(async (tx) => {
    const item = await tx.workItem.findUnique({
      where: { id: input.itemId },
      select: { id: true },
    });
    if (!item) throw notFound('item');
    await tx.cautionReading.createMany({
      data: [{ itemId: item.id, personId, at }],
      skipDuplicates: true,
    });
    return item.id;
  });
}
