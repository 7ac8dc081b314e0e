import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';

/** Records that a person was shown the cautions of an item and said so. Once is enough; twice does no harm. */
export async function readCautions(context: Context, input: { itemId: string }): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  return context.write(async (tx) => {
    const item = await tx.workItem.findUnique({
      where: { id: input.itemId },
      select: { id: true },
    });
    if (!item) throw notFound('item');
    await tx.cautionReading.createMany({
      data: [{ itemId: item.id, personId, at: context.now() }],
      skipDuplicates: true,
    });
    return item.id;
  });
}
