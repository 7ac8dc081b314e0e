import { createHash, randomUUID } from 'node:crypto';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type { Response } from 'express';
import type { Context } from './context.ts';
import {
  type DocumentMime,
  documentFormats,
  documentMime,
  MOST_DOCUMENT_BYTES,
} from './document-format.ts';
import { notFound } from './errors.ts';
import { wholeBody } from './whole-body.ts';

/** Where a document is kept, below the uploads folder: beside the shop's photos. */
const documentFile = (shopId: string, sha256: string, mime: string) =>
  path.join(shopId, `${sha256.trim()}-document.${documentFormats[mime as DocumentMime]}`);

/** The bytes of a document that somebody sends. */
export const documentBody = wholeBody({
  what: 'document',
  most: MOST_DOCUMENT_BYTES,
  instead: 'photograph it smaller, or scan it in fewer pages',
});

/**
 * Keeps the bytes of a document under their digest. The file comes before any row: a row without its file would promise
 * what nobody can show, and a file without a row does no harm.
 *
 * @throws Refused where it is neither a PDF nor a photo, or was cut short
 */
export async function keptDocument(
  { uploadsDir }: Context,
  shopId: string,
  bytes: Buffer,
): Promise<{ sha256: string; mime: DocumentMime; bytes: number }> {
  const mime = documentMime(bytes);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  await keepFile(uploadsDir, documentFile(shopId, sha256, mime), bytes);
  return { sha256, mime, bytes: bytes.length };
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

/** Its content never changes under its address. Only this browser may keep it, and only for this sign-in. */
export function sendDocument(
  response: Response,
  uploadsDir: string,
  { shopId, sha256, mime, name }: { shopId: string; sha256: string; mime: string; name: string },
): Promise<void> {
  response.set({
    'content-type': mime,
    'content-disposition': `inline; filename*=UTF-8''${encodeURIComponent(name)}`,
    'cache-control': 'private, max-age=31536000, immutable',
    vary: 'cookie',
    'x-content-type-options': 'nosniff',
    'cross-origin-resource-policy': 'same-origin',
  });
  const root = path.resolve(uploadsDir);
  return new Promise((resolve, reject) => {
    response.sendFile(
      documentFile(shopId, sha256, mime),
      { root, cacheControl: false, dotfiles: 'deny' },
      (error?: Error) => {
        // Somebody who closes the page mid-way is no fault.
        if (!error || response.headersSent) return resolve();
        for (const header of ['content-type', 'cache-control', 'content-disposition'])
          response.removeHeader(header);
        reject(notFound('document file'));
      },
    );
  });
}
