import { randomUUID } from 'node:crypto';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type { Tx } from '@fairlead/database';
import { holdFor } from '../hold.ts';
import { type PhotoSize, type Picture, photoSizes, readPicture } from './picture.ts';

/** Where a size of a photo is kept, below the uploads folder. */
export const photoFile = (shopId: string, sha256: string, size: PhotoSize) =>
  path.join(shopId, `${sha256.trim()}-${size}.jpg`);

/**
 * Reads a picture and keeps its four sizes. A file appears under its name only when it is whole: written
 * beside it, then renamed. The name is the content's, so the same picture sent twice at once does no harm.
 *
 * @throws Refused when it is not a picture; nothing is kept then
 */
export async function keepPicture(
  uploadsDir: string,
  shopId: string,
  bytes: Buffer,
): Promise<Picture> {
  const picture = await readPicture(bytes);
  const folder = path.join(uploadsDir, shopId);
  await mkdir(folder, { recursive: true, mode: 0o750 });
  for (const size of Object.keys(photoSizes) as PhotoSize[]) {
    const temporary = path.join(folder, `.${randomUUID()}.part`);
    try {
      const file = await open(temporary, 'wx', 0o640);
      try {
        await file.writeFile(picture.files[size]);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(temporary, path.join(uploadsDir, photoFile(shopId, picture.sha256, size)));
    } catch (error) {
      await rm(temporary, { force: true });
      throw error;
    }
  }
  return picture;
}

export interface PhotoFacts {
  /** Given by who adds it, so that the same photo added twice is one. */
  id: string;
  picture: Pick<Picture, 'sha256' | 'mime' | 'width' | 'height' | 'bytes'>;
  /** What it shows, for those who cannot see it. */
  words: string;
  addedById: string | null;
  /** It is small and came first; the photo itself follows under the same id. */
  preview?: boolean;
}

/**
 * The row of a kept picture. Added again, at once or later, it is there already; but the photo itself takes the place of
 * its preview. The preview's files stay: what was signed meanwhile names them.
 */
export async function addPhoto(
  tx: Tx,
  shopId: string,
  { id, picture, words, addedById, preview = false }: PhotoFacts,
): Promise<void> {
  const { sha256, mime, width, height, bytes } = picture;
  await holdFor(tx, 'photo', id);
  const here = await tx.photo.findUnique({ where: { id }, select: { preview: true } });
  if (here && (preview || !here.preview)) return;
  const kept = { sha256, mime, width, height, bytes, preview };
  await (here
    ? tx.photo.update({ where: { id }, data: kept, select: { id: true } })
    : tx.photo.create({ data: { id, shopId, ...kept, words, addedById }, select: { id: true } }));
}
