import { createHash, randomUUID } from 'node:crypto';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { allow, type Context } from '../context.ts';
import { givenText } from '../given.ts';
import { type DocumentMime, documentFormats, documentMime } from './document-format.ts';
import { lotForChange } from './lot-for-change.ts';

/** Where a document is kept, below the uploads folder: beside the shop's photos. */
export const documentFile = (shopId: string, sha256: string, mime: string) =>
  path.join(shopId, `${sha256.trim()}-document.${documentFormats[mime as DocumentMime]}`);

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
  await keepFile(context.uploadsDir, documentFile(shopId, sha256, mime), input.bytes);
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

/** It appears under its name only when it is whole: written beside it, then renamed. */
async function keepFile(uploadsDir: string, file: string, bytes: Buffer): Promise<void> {
  const whole = path.join(uploadsDir, file);
  const folder = path.dirname(whole);
  await mkdir(folder, { recursive: true, mode: 0o750 });
  const temporary = path.join(folder, `.${randomUUID()}.part`);
  try {
    const handle = await open(temporary, 'wx', 0o640);
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(temporary, whole);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
}
