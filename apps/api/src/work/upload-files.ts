import { mkdir, readdir, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { FileStore } from '@tus/file-store';
import { Refused } from '../errors.ts';

const DAY_MS = 24 * 3600 * 1000;
/** A telephone may lie in a locker over a long weekend. What comes later is sent from its beginning. */
const KEPT_MS = 4 * DAY_MS;

/** Where the bytes of photos lie until they are whole; beside the shops' folders, on the same disk. */
const arrivingDir = (uploadsDir: string) => path.join(uploadsDir, 'arriving');

/**
 * The store of unfinished uploads, its folder made first: the library makes it in the background, and an
 * error there would end the process.
 */
export async function openUploads(uploadsDir: string): Promise<FileStore> {
  const directory = arrivingDir(uploadsDir);
  await mkdir(directory, { recursive: true, mode: 0o750 });
  const store = new FileStore({ directory });
  // A length that is told later could grow past what is taken; expiry is by the last byte: sweepUploads.
  store.extensions = ['creation', 'creation-with-upload', 'termination'];
  return store;
}

/** How many uploads somebody has begun and not finished. */
export async function unfinishedOf(uploadsDir: string, prefix: string): Promise<number> {
  const names = await readdir(arrivingDir(uploadsDir));
  return names.filter((name) => name.startsWith(prefix) && !name.endsWith('.json')).length;
}

/** Deletes uploads to which nothing was added for four days. Returns how many files went. */
export async function sweepUploads(uploadsDir: string, now: Date): Promise<number> {
  const directory = arrivingDir(uploadsDir);
  const names = await readdir(directory).catch((error: unknown) => {
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  });
  let gone = 0;
  for (const name of names) {
    const data = path.join(directory, name.replace(/\.json$/, ''));
    const touched = await Promise.all(
      [data, `${data}.json`].map((file) =>
        stat(file).then(
          ({ mtimeMs }) => mtimeMs,
          () => 0,
        ),
      ),
    );
    if (Math.max(...touched) > now.getTime() - KEPT_MS) continue;
    await rm(path.join(directory, name), { force: true });
    gone += 1;
  }
  return gone;
}

const diskCodes = new Set(
  'EACCES EDQUOT EEXIST EIO EISDIR EMFILE ENFILE ENOENT ENOSPC ENOTDIR EPERM EROFS'.split(' '),
);
const codeOf = (error: unknown) =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

/** A disk that is full or may not be written is no fault of the photo: it stays where it is and comes again. */
export const diskRefusal = (error: unknown): Refused | null =>
  diskCodes.has(codeOf(error)) ? diskTakesNothing() : null;

export const diskTakesNothing = () =>
  new Refused(
    'UNAVAILABLE',
    'The shop’s disk takes no photo just now: it is full, or the folder for uploads may not be written. Keep the photo; it can be sent again when there is room.',
  );
