import { generateKeyPairSync, randomUUID } from 'node:crypto';
import { link, mkdir, open, readFile, rm } from 'node:fs/promises';
import path from 'node:path';
import { type SigningKey, signingKey } from '@fairlead/proof';

const opened = new Map<string, Promise<SigningKey>>();

/** Where the private half lies: a file of the shop's beside its photos, for nobody but the API's account to read. */
export const keyFile = (uploadsDir: string, shopId: string) =>
  path.join(uploadsDir, 'keys', `${shopId}.pem`);

/**
 * The shop's key (Ed25519). It is made when it is first needed, and read once a process. It lies in no database, so that
 * whoever can write all of the tables still cannot sign.
 *
 * Open it before a transaction: it reads a file.
 */
export function shopKey(uploadsDir: string, shopId: string): Promise<SigningKey> {
  const file = keyFile(uploadsDir, shopId);
  let key = opened.get(file);
  if (!key) {
    key = readKey(file).catch((error: unknown) => {
      opened.delete(file);
      throw error;
    });
    opened.set(file, key);
  }
  return key;
}

async function readKey(file: string): Promise<SigningKey> {
  const read = () => readFile(file, 'utf8');
  const there = await read().catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw error;
  });
  if (there !== null) return signingKey(there);
  await mkdir(path.dirname(file), { recursive: true, mode: 0o700 });
  // Whole before it has its name, and the name given once: of two processes that make one at once, one wins.
  const beside = `${file}.${randomUUID()}.part`;
  try {
    const made = await open(beside, 'wx', 0o600);
    try {
      const { privateKey } = generateKeyPairSync('ed25519');
      await made.writeFile(privateKey.export({ format: 'pem', type: 'pkcs8' }));
      await made.sync();
    } finally {
      await made.close();
    }
    await link(beside, file).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'EEXIST') throw error;
    });
  } finally {
    await rm(beside, { force: true });
  }
  return signingKey(await read());
}
