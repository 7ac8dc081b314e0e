import { allow, type Context } from '../context.ts';
import { keptDocument } from '../document-files.ts';
import { givenText } from '../given.ts';
import { lotForChange } from './lot-for-change.ts';

export interface AddDocumentInput {
  lotId: string;
  /** As the file was called on the device. */
  name: string;
  bytes: Buffer;
}

/** Keeps the release certificate of a lot as it came. The same bytes sent again are the same document. */
export async function addLotDocument(context: Context, input: AddDocumentInput): Promise<string> {
  const { personId, shopId } = await allow(
    context,
    'mechanic',
    'inspector',
    'front_desk',
    'manager',
  );
  const name = givenText(input.name, 'name', { least: 1, most: 160 });
  const { sha256, mime, bytes } = await keptDocument(context, shopId, input.bytes);
  return context.write(async (tx) => {
    const lot = await lotForChange(tx, input.lotId);
    const known = await tx.lotDocument.findFirst({
      where: { lotId: lot.id, sha256 },
      select: { id: true },
    });
    if (known) return known.id;
    const { id } = await tx.lotDocument.create({
      data: {
        lotId: lot.id,
        ...{ sha256, mime, bytes, name },
        at: context.now(),
        byId: personId,
      },
      select: { id: true },
    });
    return id;
  });
}
