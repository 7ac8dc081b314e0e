import { createHash } from 'node:crypto';
import { allow, type Context } from '../context.ts';
import { givenText } from '../given.ts';
import { documentMime } from './document-format.ts';
import { documentFile, keepDocument } from './keep-document.ts';
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
  const mime = documentMime(input.bytes);
  const sha256 = createHash('sha256').update(input.bytes).digest('hex');
  // The file first: a row without its file would promise what nobody can show. One without a row does no harm.
  await keepDocument(context.uploadsDir, documentFile(shopId, sha256, mime), input.bytes);
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
        sha256,
        mime,
        bytes: input.bytes.length,
        name,
        at: context.now(),
        byId: personId,
      },
      select: { id: true },
    });
    return id;
  });
}
