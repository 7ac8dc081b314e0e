import { Worker } from 'node:worker_threads';

export interface Decoded {
  width: number;
  height: number;
  /** Four bytes a pixel; null where there are more pixels than are taken. */
  pixels: Uint8Array | null;
}

const PATIENCE_MS = 30_000;
let last: Promise<unknown> = Promise.resolve();

/**
 * Opens a picture in HEIC, one at a time: each takes up to four bytes a pixel several times over. It comes the right
 * way up, since the format's own turns are applied.
 *
 * @param bytes the file
 * @param mostPixels looked at before anything is unpacked
 * @returns null when it cannot be read
 */
export function decodeHeic(bytes: Buffer, mostPixels: number): Promise<Decoded | null> {
  const mine = last.then(() => inThread(bytes, mostPixels));
  last = mine.catch(() => undefined);
  return mine;
}

function inThread(bytes: Buffer, mostPixels: number): Promise<Decoded | null> {
  return new Promise((resolve) => {
    const worker = new Worker(new URL('./heic-worker.mjs', import.meta.url), {
      workerData: { bytes: new Uint8Array(bytes), mostPixels },
      // What the decoder says of damaged files is not for the log.
      stdout: true,
      stderr: true,
    });
    const end = (decoded: Decoded | null) => {
      clearTimeout(timer);
      void worker.terminate();
      resolve(decoded);
    };
    const timer = setTimeout(() => end(null), PATIENCE_MS);
    worker.once('message', end);
    worker.once('error', () => end(null));
    worker.once('exit', () => end(null));
  });
}
