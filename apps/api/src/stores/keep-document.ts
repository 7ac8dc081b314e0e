import { randomUUID } from 'node:crypto';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { type DocumentMime, documentFormats } from './document-format.ts';

/** Where a document is kept, below the uploads folder: beside the shop's photos. */
export const documentFile = (shopId: string, sha256: string, mime: string) =>
  path.join(shopId, `${sha256.trim()}-document.${documentFormats[mime as DocumentMime]}`);

/** It appears under its name only when it is whole: written beside it, then renamed. */
export async function keepDocument(uploadsDir: string, file: string, bytes: Buffer): Promise<void> {
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
