import { generateKeyPairSync, randomUUID } from 'node:crypto';
import { link, mkdir, open, readFile, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { type SigningKey, signingKey } from '@fairlead/proof';

const opened = new Map<string, { file: string | null; key: Promise<SigningKey> }>();

/** Where the private half lies: a file of the shop's beside its photos, for nobody but the API's account to read. */
export const keyFile = (uploadsDir: string, shopId: string) =>
  path.join(uploadsDir, 'keys', `${shopId}.pem`);

const isMissing = (error: unknown) => (error as NodeJS.ErrnoException).code === 'ENOENT';
/** What tells a file from one that takes its name, also where the disk gives the same number again; null where it is gone. */
const identityOf = (file: string): Promise<string | null> =>
  stat(file, { bigint: true }).then(
    ({ ino, mtimeNs, ctimeNs }) => `${ino} ${mtimeNs} ${ctimeNs}`,
    (error: unknown) => {
      if (isMissing(error)) return null;
      throw error;
    },
  );

/**
 * The shop's key (Ed25519). It is made when it is first needed, and read again only where its file is another: the worker
 * sees what the API replaced. It lies in no database, so that whoever can write all of the tables still cannot sign.
 *
 * Open it before a transaction: it reads a file.
 */
export async function shopKey(uploadsDir: string, shopId: string): Promise<SigningKey> {
  const file = keyFile(uploadsDir, shopId);
  const there = await identityOf(file);
  const known = opened.get(file);
  if (known && there !== null && known.file === there) return known.key;
  if (there === null) await makeKey(file);
  const read = await identityOf(file);
  const key = readFile(file, 'utf8').then(signingKey);
  opened.set(file, { file: read, key });
  key.catch(() => opened.delete(file));
  return key;
}

/** The key whose file is there; null where it is gone. None is made. */
export async function shopKeyThere(uploadsDir: string, shopId: string): Promise<SigningKey | null> {
  return (await identityOf(keyFile(uploadsDir, shopId))) === null
    ? null
    : shopKey(uploadsDir, shopId);
}

/** A key made to take over: its file lies beside the other until it is put in its place. */
export interface NextKey {
  key: SigningKey;
  /** Puts it in its place, and the old one aside. Answers how to undo that. */
  install(): Promise<() => Promise<void>>;
  /** Removes what was not installed. */
  clear(): Promise<void>;
}

export async function makeNextKey(uploadsDir: string, shopId: string): Promise<NextKey> {
  const file = keyFile(uploadsDir, shopId);
  const beside = `${file}.${randomUUID()}.next`;
  await mkdir(path.dirname(file), { recursive: true, mode: 0o700 });
  await writeKey(beside);
  const key = signingKey(await readFile(beside, 'utf8'));
  const aside = `${file}.until-${key.fingerprint.slice(0, 12)}`;
  return {
    key,
    async install() {
      const had = await identityOf(file);
      if (had !== null) await rename(file, aside);
      await rename(beside, file);
      return async () => {
        await rename(file, beside);
        if (had !== null) await rename(aside, file);
      };
    },
    clear: () => rm(beside, { force: true }),
  };
}

async function makeKey(file: string): Promise<void> {
  await mkdir(path.dirname(file), { recursive: true, mode: 0o700 });
  // Whole before it has its name, and the name given once: of two processes that make one at once, one wins.
  const beside = `${file}.${randomUUID()}.part`;
  try {
    await writeKey(beside);
    await link(beside, file).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'EEXIST') throw error;
    });
  } finally {
    await rm(beside, { force: true });
  }
}

async function writeKey(file: string): Promise<void> {
  const made = await open(file, 'wx', 0o600);
  try {
    const { privateKey } = generateKeyPairSync('ed25519');
    await made.writeFile(privateKey.export({ format: 'pem', type: 'pkcs8' }));
    await made.sync();
  } finally {
    await made.close();
  }
}
