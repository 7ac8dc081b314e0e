import { randomUUID } from 'node:crypto';
import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { sha256 } from '@fairlead/proof';
import { Refused } from '../errors.ts';

/** Where a paper that went with a mail lies, as it went: named by its SHA-256. */
export const mailFile = (uploadsDir: string, shopId: string, digest: string) =>
  path.join(uploadsDir, 'mail', shopId, digest);

/** Keeps bytes under their digest. They appear under that name only when they are whole: written beside it, then renamed. */
export async function keepMailFile(
  uploadsDir: string,
  shopId: string,
  bytes: Buffer,
): Promise<string> {
  const digest = sha256(bytes);
  const file = mailFile(uploadsDir, shopId, digest);
  await mkdir(path.dirname(file), { recursive: true, mode: 0o750 });
  const beside = `${file}.${randomUUID()}.part`;
  try {
    const made = await open(beside, 'wx', 0o640);
    try {
      await made.writeFile(bytes);
      await made.sync();
    } finally {
      await made.close();
    }
    await rename(beside, file);
  } finally {
    await rm(beside, { force: true });
  }
  return digest;
}

/** The bytes as they were kept. @throws Refused where they are not the ones that were kept, or are gone */
export async function readMailFile(
  uploadsDir: string,
  shopId: string,
  digest: string,
): Promise<Buffer> {
  const bytes = await readFile(mailFile(uploadsDir, shopId, digest)).catch(
    (error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return null;
      throw error;
    },
  );
  if (bytes === null || sha256(bytes) !== digest)
    throw new Refused(
      'NOT_FOUND',
      'The paper that goes with this mail is not on the disk as it was drawn. Send what the mail is about anew.',
    );
  return bytes;
}
