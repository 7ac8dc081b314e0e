import { mkdir, mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import path from 'node:path';

const receivedDir = (uploadsDir: string) => path.join(uploadsDir, 'received');
const leavingDir = (uploadsDir: string) => path.join(uploadsDir, 'leaving');
const UNFINISHED = '.part';

/** Where an archive that came with an aircraft lies, as it came: named by its SHA-256. */
export const receivedFile = (uploadsDir: string, shopId: string, sha256: string) =>
  path.join(receivedDir(uploadsDir), shopId, `${sha256}.tar`);

/** Where one lies while it comes in and is verified. */
export const arrivingFile = (uploadsDir: string, shopId: string, id: string) =>
  path.join(receivedDir(uploadsDir), shopId, `.${id}${UNFINISHED}`);

/** A new folder to lay out an archive that goes out; whoever makes it removes it. */
export async function leavingFolder(uploadsDir: string): Promise<string> {
  await mkdir(leavingDir(uploadsDir), { recursive: true, mode: 0o750 });
  return mkdtemp(path.join(leavingDir(uploadsDir), 'archive-'));
}

const DAY_MS = 86_400_000;

/**
 * Removes what processes that were killed left of archives: nothing of it is known to the shop. Whatever was touched within
 * a day may still be at work.
 *
 * @returns how many files and folders went
 */
export async function sweepArchives(uploadsDir: string, now: Date): Promise<number> {
  const shops = await namesIn(receivedDir(uploadsDir));
  const arriving = await Promise.all(
    shops.map(async (shop) => {
      const names = await namesIn(path.join(receivedDir(uploadsDir), shop));
      return names
        .filter((name) => name.endsWith(UNFINISHED))
        .map((name) => path.join(receivedDir(uploadsDir), shop, name));
    }),
  );
  const leaving = (await namesIn(leavingDir(uploadsDir))).map((name) =>
    path.join(leavingDir(uploadsDir), name),
  );
  let gone = 0;
  for (const left of [...arriving.flat(), ...leaving]) {
    const touched = await stat(left).then(
      ({ mtimeMs }) => mtimeMs,
      () => null,
    );
    if (touched === null || touched > now.getTime() - DAY_MS) continue;
    await rm(left, { recursive: true, force: true });
    gone += 1;
  }
  return gone;
}

const namesIn = (directory: string): Promise<string[]> =>
  readdir(directory).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT' || error.code === 'ENOTDIR') return [];
    throw error;
  });
