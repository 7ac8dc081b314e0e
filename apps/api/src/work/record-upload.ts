import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import type { Context, Viewer } from '../context.ts';
import { notFound } from '../errors.ts';
import { addPhoto, keepPicture } from './photo-files.ts';
import { diskRefusal } from './upload-files.ts';

/**
 * The key of the photo that a device's upload becomes: a UUID of version 8 (RFC 9562, section 5.8) over shop,
 * person and the id that the device made. The same upload sent again is therefore the same photo, and what one
 * person's device says never meets what another's says.
 */
export function photoKey(
  { shopId, personId }: Pick<Viewer, 'shopId' | 'personId'>,
  uploadId: string,
): string {
  const bytes = createHash('sha256').update(`${shopId}:${personId}:${uploadId}`).digest();
  bytes[6] = (bytes.readUInt8(6) & 0x0f) | 0x80;
  bytes[8] = (bytes.readUInt8(8) & 0x3f) | 0x80;
  const hex = bytes.toString('hex', 0, 16);
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}

export interface Upload {
  file: string;
  /** The photo's key: see photoKey. */
  id: string;
  shopId: string;
  words: string;
  addedById: string;
  /** It is the preview of that photo. */
  preview: boolean;
}

/** Whether there is nothing left to record: the photo is there, or for a preview at least another one of it. */
export const isRecorded = async (
  { read }: Pick<Context, 'read'>,
  { id, preview }: Pick<Upload, 'id' | 'preview'>,
): Promise<boolean> => {
  const here = await read.photo.findUnique({ where: { id }, select: { preview: true } });
  return here !== null && (preview || !here.preview);
};

/**
 * Makes a photo of an upload that has come whole. Asked twice, also at once or after the process was killed in
 * between, it is one photo.
 *
 * @throws Refused when it is no picture, or when disk or database take nothing just now
 */
export async function recordUpload(context: Context, upload: Upload): Promise<void> {
  const { id, shopId, words, addedById, preview } = upload;
  const recorded = () => isRecorded(context, upload).finally(context.close);
  if (await recorded()) return;
  try {
    const picture = await keepPicture(context.uploadsDir, shopId, await readFile(upload.file));
    await context.write((tx) => addPhoto(tx, shopId, { id, picture, words, addedById, preview }));
  } catch (error) {
    if (isGone(error, upload.file)) {
      // The same upload, finished beside this one, has taken its file away.
      if (await recorded()) return;
      throw notFound('upload');
    }
    throw diskRefusal(error) ?? error;
  }
}

const isGone = (error: unknown, file: string) =>
  error instanceof Error &&
  'code' in error &&
  error.code === 'ENOENT' &&
  'path' in error &&
  error.path === file;
